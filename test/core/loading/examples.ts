import type { Rng } from '#core/rng.ts'
import { circleFootprint, ovalFootprint, rectangleFootprint } from '#core/loading/footprint.ts'
import {
  DEFAULT_CLEARANCES,
  NO_STACKING,
  type Chamber,
  type Footprint,
  type KilnSpace,
  type LoadItem,
  type PostKind,
  type ShelfKind,
} from '#core/loading/types.ts'

const POST_LENGTHS_MM = [13, 25, 38, 51, 64, 76, 102, 127, 152, 203, 254, 305]

/** Twelve of each common length, 38 mm square. @see FACTS 4.2: lengths from memory */
export const somePosts: readonly PostKind[] = POST_LENGTHS_MM.map((lengthMm) => ({
  id: `post-${lengthMm}`,
  lengthMm,
  section: 'square',
  sizeMm: 38,
  count: 12,
}))

export function aShelf(shape: ShelfKind['shape'], count = 6, thicknessMm = 19): ShelfKind {
  return { id: `${shape.kind}-${shape.share}`, shape, thicknessMm, massKg: 8, count }
}

export function aKiln(shape: Chamber['shape'], heightMm: number, shelves: readonly ShelfKind[]): KilnSpace {
  return {
    chamber: { shape, heightMm, keepOuts: [] },
    furniture: { shelves, posts: somePosts },
    clearances: DEFAULT_CLEARANCES,
  }
}

/** Sizes of common kilns. @see FACTS 4.1: 10-sided 23 3/8 in, 21 in shelves; oval; square; 12-sided with halves */
export const someKilns = {
  round: aKiln({ kind: 'many-sided', sides: 10, acrossFlatsMm: 594 }, 686, [
    aShelf({ kind: 'round', diameterMm: 533, share: 'full' }),
  ]),
  oval: aKiln({ kind: 'oval', lengthMm: 1_000, widthMm: 650 }, 686, [
    aShelf({ kind: 'round', diameterMm: 600, share: 'half' }, 12),
    aShelf({ kind: 'rectangular', lengthMm: 340, widthMm: 600, share: 'full' }, 6),
  ]),
  square: aKiln({ kind: 'rectangular', lengthMm: 610, widthMm: 610 }, 686, [
    aShelf({ kind: 'rectangular', lengthMm: 560, widthMm: 280, share: 'half' }, 12),
  ]),
  halves: aKiln({ kind: 'many-sided', sides: 12, acrossFlatsMm: 711 }, 686, [
    aShelf({ kind: 'round', diameterMm: 650, share: 'half' }, 12),
  ]),
} as const satisfies Record<string, KilnSpace>

export function aPiece(key: string, footprint: Footprint, heightMm: number, more: Partial<LoadItem> = {}): LoadItem {
  return { key, footprint, heightMm, massKg: 0.8, mustGo: true, stacking: NO_STACKING, rotation: 'any', ...more }
}

/** Mugs, bowls, dishes, trays, ovals and boxes as a slab potter makes them. */
export function mixedPieces(count: number, rng: Rng, mustGo = true): LoadItem[] {
  return Array.from({ length: count }, (_, i) => {
    const between = (low: number, high: number): number => Math.round(low + (high - low) * rng.next())
    const kind = rng.next()
    const [footprint, heightMm] =
      kind < 0.35
        ? [circleFootprint(between(75, 100)), between(80, 120)]
        : kind < 0.55
          ? [circleFootprint(between(120, 220)), between(50, 110)]
          : kind < 0.8
            ? [rectangleFootprint(between(140, 300), between(90, 200), between(5, 25)), between(40, 110)]
            : kind < 0.9
              ? [ovalFootprint(between(150, 300), between(100, 180)), between(40, 90)]
              : [rectangleFootprint(between(80, 140), between(80, 140), 8), between(100, 220)]
    const massKg = (Math.PI * 0.25 * 0.008 * heightMm) / 10 + 0.3
    return aPiece(`piece-${i}`, footprint, heightMm, { mustGo, massKg })
  })
}

/** Ware that piles in a bisque load: bowls that nest, rims that meet, plates on edge, tiles on tiles, lidded jars. */
export function pilingPieces(count: number, rng: Rng, mustGo = true): LoadItem[] {
  const between = (low: number, high: number): number => Math.round(low + (high - low) * rng.next())
  const items: LoadItem[] = []
  while (items.length < count) {
    const key = `piece-${items.length}`
    const kind = rng.next()
    if (kind < 0.4) items.push(aBowl(key, between(90, 260), between(50, 110), mustGo))
    else if (kind < 0.55) items.push(aPlate(key, between(160, 280), mustGo))
    else if (kind < 0.75) items.push(aTile(key, between(90, 150), mustGo))
    else if (kind < 0.9) items.push(...mixedPieces(1, rng, mustGo).map((item) => ({ ...item, key })))
    else items.push(...aLiddedJar(key, between(90, 160), between(90, 160), mustGo))
  }
  return items
}

function aBowl(key: string, diameterMm: number, heightMm: number, mustGo: boolean): LoadItem {
  const hollow = { footprint: circleFootprint(diameterMm - 24), floorMm: 10 }
  return aPiece(key, circleFootprint(diameterMm), heightMm, {
    mustGo,
    stacking: { maxAbove: 3, maxMassAboveKg: 3, top: 'rim', hollow },
  })
}

function aPlate(key: string, diameterMm: number, mustGo: boolean): LoadItem {
  const onEdge = { footprint: rectangleFootprint(diameterMm, 30), heightMm: diameterMm }
  return aPiece(key, circleFootprint(diameterMm), 30, { mustGo, stacking: { ...NO_STACKING, onEdge } })
}

function aTile(key: string, sideMm: number, mustGo: boolean): LoadItem {
  return aPiece(key, rectangleFootprint(sideMm, sideMm), 9, {
    mustGo,
    stacking: { maxAbove: 5, maxMassAboveKg: 6, top: 'flat' },
  })
}

function aLiddedJar(key: string, diameterMm: number, heightMm: number, mustGo: boolean): LoadItem[] {
  const lid = aPiece(`${key}-lid`, circleFootprint(diameterMm + 6), 30, { mustGo, lidOf: key, group: key })
  return [aPiece(key, circleFootprint(diameterMm), heightMm, { mustGo, group: key }), lid]
}
