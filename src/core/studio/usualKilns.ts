import { usualKilnFiring } from '#core/firing/kilnSizes.ts'
import { DEFAULT_CLEARANCES } from '#core/loading/types.ts'
import type { PostKind, ShelfKind } from '#core/loading/types.ts'
import type { Kiln } from './studio.ts'

export type KilnSize = 'small round' | 'middling round' | 'large round' | 'square'
export const kilnSizes: readonly KilnSize[] = ['small round', 'middling round', 'large round', 'square']

/**
 * Sizes that many makers build, none of any one: chambers and their power, a set of shelves and posts. Power and walls
 * as in test/golden/firing; shelves some 50 mm narrower than the chamber; counts of furniture common practice, no source.
 */
const usual: Readonly<Record<KilnSize, Usual>> = {
  'small round': {
    insideMm: 440,
    heightMm: 480,
    powerKw: 5.5,
    shelfMm: 390,
    isRound: true,
    loadMin: 45,
    unloadMin: 30,
  },
  'middling round': {
    insideMm: 580,
    heightMm: 690,
    powerKw: 11.5,
    shelfMm: 530,
    isRound: true,
    loadMin: 60,
    unloadMin: 45,
  },
  'large round': { insideMm: 710, heightMm: 710, powerKw: 16, shelfMm: 660, isRound: true, loadMin: 75, unloadMin: 50 },
  square: { insideMm: 460, heightMm: 600, powerKw: 9, shelfMm: 405, isRound: false, loadMin: 45, unloadMin: 35 },
}

type Usual = {
  /** Diameter, or the side of a square. */
  readonly insideMm: number
  readonly heightMm: number
  readonly powerKw: number
  readonly shelfMm: number
  readonly isRound: boolean
  readonly loadMin: number
  readonly unloadMin: number
}

/** A kiln of a size and its usual furniture, to be amended by its own measures. */
export function usualKiln(size: KilnSize): Omit<Kiln, 'id' | 'name' | 'supplyId'> {
  const kiln = usual[size]
  const { insideMm, heightMm, powerKw, isRound, loadMin, unloadMin } = kiln
  return {
    space: {
      chamber: {
        shape: isRound
          ? { kind: 'round', diameterMm: insideMm }
          : { kind: 'rectangular', lengthMm: insideMm, widthMm: insideMm },
        heightMm,
        keepOuts: [],
      },
      furniture: {
        shelves: isRound ? roundShelves(kiln.shelfMm) : squareShelves(kiln.shelfMm),
        posts: posts(isRound ? [50, 75, 100, 125, 150, 225] : [50, 75, 100, 125, 225]),
      },
      clearances: DEFAULT_CLEARANCES,
    },
    firing: usualKilnFiring({
      insideWidthMm: insideMm,
      insideDepthMm: insideMm,
      insideHeightMm: heightMm,
      isRound,
      wallMm: isRound ? 76 : 100,
      powerKw,
      maxTempC: isRound ? 1_290 : 1_300,
    }),
    fires: ['bisque', 'glaze'],
    loadMin,
    unloadMin,
  }
}

/** Cordierite: 2 g for each cubic centimetre, within a tenth. Common practice, no source. */
const SHELF_KG_PER_MM3 = 2e-6

function roundShelves(diameterMm: number): ShelfKind[] {
  const thicknessMm = 19
  const massKg = rounded((Math.PI / 4) * diameterMm ** 2 * thicknessMm * SHELF_KG_PER_MM3)
  return [
    { id: 'full', shape: { kind: 'round', diameterMm, share: 'full' }, thicknessMm, massKg, count: 5 },
    {
      id: 'half',
      shape: { kind: 'round', diameterMm, share: 'half' },
      thicknessMm,
      massKg: rounded(massKg / 2),
      count: 4,
    },
  ]
}

function squareShelves(sideMm: number): ShelfKind[] {
  const thicknessMm = 17
  const massKg = rounded(sideMm ** 2 * thicknessMm * SHELF_KG_PER_MM3)
  const shape = { kind: 'rectangular', lengthMm: sideMm, widthMm: sideMm, share: 'full' } as const
  return [{ id: 'plate', shape, thicknessMm, massKg, count: 6 }]
}

const posts = (lengthsMm: readonly number[]): PostKind[] =>
  lengthsMm.map((lengthMm) => ({ id: `post-${lengthMm}`, lengthMm, section: 'square', sizeMm: 32, count: 12 }))

const rounded = (massKg: number): number => Math.round(massKg * 10) / 10
