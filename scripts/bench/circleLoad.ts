import { checkLoad } from '../../src/core/loading/checkLoad.ts'
import { circleFootprint } from '../../src/core/loading/footprint.ts'
import type { LoadBreach } from '../../src/core/loading/check/breach.ts'
import {
  DEFAULT_CLEARANCES,
  NO_STACKING,
  type KilnSpace,
  type Load,
  type LoadItem,
} from '../../src/core/loading/types.ts'

/** Circles in a round container of radius 1, by their middles. */
export type CircleLayout = {
  readonly radii: readonly number[]
  readonly centres: readonly (readonly [number, number])[]
}

const SHELF_RADIUS_MM = 300
const POST_MM = 13
const SHELF_THICKNESS_MM = 19
const POT_HEIGHT_MM = 50

/** A round kiln with one shelf that fills it, on three posts; pots may touch each other and the wall. */
const kiln: KilnSpace = {
  chamber: { shape: { kind: 'round', diameterMm: 2 * SHELF_RADIUS_MM }, heightMm: 300, keepOuts: [] },
  furniture: {
    shelves: [
      {
        id: 'shelf',
        shape: { kind: 'round', diameterMm: 2 * SHELF_RADIUS_MM, share: 'full' },
        thicknessMm: SHELF_THICKNESS_MM,
        massKg: 8,
        count: 1,
      },
    ],
    posts: [{ id: 'post', lengthMm: POST_MM, section: 'round', sizeMm: 30, count: 3 }],
  },
  clearances: { ...DEFAULT_CLEARANCES, glazeGapMm: 0, wallMm: 0 },
}

/** What the load checker says of round pots standing on one shelf as the layout has them. */
export function layoutBreaches({ radii, centres }: CircleLayout): LoadBreach[] {
  const zMm = POST_MM + SHELF_THICKNESS_MM
  const items = radii.map((radius, i): LoadItem => {
    const footprint = circleFootprint(2 * radius * SHELF_RADIUS_MM)
    const size = { footprint, heightMm: POT_HEIGHT_MM, massKg: 1 }
    return { key: `pot ${i}`, ...size, mustGo: true, stacking: NO_STACKING, rotation: 'any' }
  })
  const load: Load = {
    kind: 'glaze',
    levels: [
      {
        shelves: [{ shelfId: 'shelf', xMm: 0, yMm: 0, angleIndex: 0 }],
        posts: [0, 1, 2].map((k) => {
          const angle = (2 * Math.PI * k) / 3
          const at = { xMm: 250 * Math.cos(angle), yMm: 250 * Math.sin(angle) }
          return { postIds: ['post'], ...at, fromZMm: 0, lengthMm: POST_MM }
        }),
        zMm,
        pitchMm: 300 - zMm,
        usableHeightMm: 300 - zMm - kiln.clearances.lidMm,
        placements: centres.map(([x, y], i) => ({
          key: `pot ${i}`,
          xMm: x * SHELF_RADIUS_MM,
          yMm: y * SHELF_RADIUS_MM,
          angleIndex: 0,
          zMm,
          pose: 'upright' as const,
        })),
      },
    ],
    leftOut: [],
  }
  return checkLoad(kiln, items, 'glaze', load)
}

/** The layout with the circle that touches most closely made larger by a share of its radius. */
export function withOneGrown({ radii, centres }: CircleLayout, share: number): CircleLayout {
  const slack = radii.map((radius, i) => {
    const [x, y] = centres[i]!
    const toOthers = centres.map(([ox, oy], j) =>
      i === j ? Infinity : Math.hypot(x - ox, y - oy) - radius - radii[j]!,
    )
    return Math.min(1 - radius - Math.hypot(x, y), ...toOthers)
  })
  const tightest = slack.indexOf(Math.min(...slack))
  return { radii: radii.map((radius, i) => (i === tightest ? radius * (1 + share) : radius)), centres }
}
