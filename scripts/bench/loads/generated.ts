import type { KilnSpace, LoadItem } from '#core/loading/types.ts'
import { seededRng } from '#core/rng.ts'
import { aKiln, aShelf, mixedPieces } from '../../../test/core/loading/examples.ts'

export type LoadCase = { readonly name: string; readonly kiln: KilnSpace; readonly items: readonly LoadItem[] }

const COUNTS = [20, 40, 80, 140, 200, 300] as const
const SHAPES = ['round', 'halves', 'oval', 'square'] as const

/** A kiln of a common size, seen shapes in turn, and 20 to 300 mixed pieces. */
export function generatedCase(seed: number): LoadCase {
  const rng = seededRng(seed)
  const shape = SHAPES[seed % SHAPES.length]!
  const count = COUNTS[Math.floor(seed / SHAPES.length) % COUNTS.length]!
  const kiln = kilnOf(shape, 480 + 10 * rng.int(20), 560 + 10 * rng.int(16))
  return { name: `${seed} ${shape} ${count}`, kiln, items: mixedPieces(count, rng) }
}

function kilnOf(shape: (typeof SHAPES)[number], widthMm: number, heightMm: number): KilnSpace {
  switch (shape) {
    case 'round':
      return aKiln({ kind: 'many-sided', sides: 10, acrossFlatsMm: widthMm }, heightMm, [
        aShelf({ kind: 'round', diameterMm: widthMm - 60, share: 'full' }, 7),
      ])
    case 'halves':
      return aKiln({ kind: 'many-sided', sides: 12, acrossFlatsMm: widthMm }, heightMm, [
        aShelf({ kind: 'round', diameterMm: widthMm - 60, share: 'half' }, 14),
      ])
    case 'oval':
      return aKiln({ kind: 'oval', lengthMm: widthMm + 320, widthMm }, heightMm, [
        aShelf({ kind: 'round', diameterMm: widthMm - 50, share: 'half' }, 14),
        aShelf({ kind: 'rectangular', lengthMm: 300, widthMm: widthMm - 50, share: 'full' }, 7),
      ])
    case 'square':
      return aKiln({ kind: 'rectangular', lengthMm: widthMm, widthMm }, heightMm, [
        aShelf({ kind: 'rectangular', lengthMm: widthMm - 50, widthMm: (widthMm - 50) / 2, share: 'half' }, 14),
      ])
  }
}
