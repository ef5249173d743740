import type { KilnRecord } from '#contract/kiln.ts'
import { usualKilnFiring } from '#core/firing/kilnSizes.ts'
import { DEFAULT_CLEARANCES } from '#core/loading/types.ts'
import type { ChamberShape, ShelfShape } from '#core/loading/types.ts'
import type { Dice } from './dice.ts'

/** One to three kilns of any shape, each with shelves that fit it. */
export function randomKilns(die: Dice): KilnRecord[] {
  return Array.from({ length: die.between(1, 3) }, (_, index) => {
    const widthMm = die.between(42, 70) * 10
    const heightMm = die.between(45, 80) * 10
    const shape = chamberShape(die, widthMm)
    return {
      id: `kiln-${index}`,
      name: `Kiln ${index}`,
      supplyId: 'mains',
      space: {
        chamber: { shape, heightMm, keepOuts: [] },
        furniture: {
          shelves: [{ id: 'shelf', shape: shelfShape(shape), thicknessMm: 18, massKg: 7, count: die.between(3, 7) }],
          posts: [50, 75, 100, 150, 200].map((lengthMm) => ({
            id: `post-${lengthMm}`,
            lengthMm,
            section: 'square',
            sizeMm: 32,
            count: die.between(6, 15),
          })),
        },
        clearances: DEFAULT_CLEARANCES,
      },
      firing: usualKilnFiring({
        insideWidthMm: widthMm,
        insideDepthMm: widthMm,
        insideHeightMm: heightMm,
        isRound: shape.kind !== 'rectangular',
        wallMm: 76,
        powerKw: die.of(10, 16),
        maxTempC: 1_290,
      }),
      fires: ['bisque', 'glaze'],
      loadMin: die.between(30, 90),
      unloadMin: die.between(20, 60),
    }
  })
}

function chamberShape(die: Dice, widthMm: number): ChamberShape {
  return die.one<ChamberShape>([
    { kind: 'round', diameterMm: widthMm },
    { kind: 'oval', lengthMm: widthMm + 250, widthMm },
    { kind: 'many-sided', sides: 8, acrossFlatsMm: widthMm },
    { kind: 'rectangular', lengthMm: widthMm, widthMm },
  ])
}

/** A shelf stays 25 mm off the wall all round; an oval chamber takes rectangular ones in its straight middle. */
function shelfShape(chamber: ChamberShape): ShelfShape {
  const share = 'full'
  switch (chamber.kind) {
    case 'round':
      return { kind: 'round', diameterMm: chamber.diameterMm - 50, share }
    case 'many-sided':
      return { kind: 'many-sided', sides: chamber.sides, acrossFlatsMm: chamber.acrossFlatsMm - 50, share }
    case 'oval':
      return { kind: 'rectangular', lengthMm: chamber.lengthMm - chamber.widthMm, widthMm: chamber.widthMm - 60, share }
    case 'rectangular':
      return { kind: 'rectangular', lengthMm: chamber.lengthMm - 50, widthMm: chamber.widthMm - 50, share }
  }
}
