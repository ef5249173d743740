import { distanceMm, FORGIVEN_MM, placed, roomMm } from '#core/loading/check/geometry.ts'
import { shelfRoomMm } from '#core/loading/check/kiln.ts'
import { circleFootprint, rectangleFootprint } from '#core/loading/footprint.ts'
import { outlineOf } from '#core/loading/outline.ts'
import { shelfRegion } from '#core/loading/region.ts'
import { shapeAt } from '#core/loading/shape.ts'
import { squeeze, type Stance } from '#core/loading/squeeze/squeeze.ts'
import { ANGLE_STEPS, type Footprint, type Rotation, type ShelfShape } from '#core/loading/types.ts'
import { seededRng } from '#core/rng.ts'
import { mixedPieces } from '../core/loading/examples.ts'

const post = rectangleFootprint(38, 38)
const gapMm = 6
const postAt = { xMm: 60, yMm: 0 }
const shelves: readonly ShelfShape[] = [
  { kind: 'round', diameterMm: 420, share: 'full' },
  { kind: 'many-sided', sides: 8, acrossFlatsMm: 420, share: 'full' },
  { kind: 'round', diameterMm: 560, share: 'half' },
  { kind: 'rectangular', lengthMm: 480, widthMm: 300, share: 'full' },
]
const rotations: readonly Rotation[] = ['any', 'any', 'quarter', 'half', 'none']

/** Random pieces squeezed onto random shelves: what is found is clear by the load checker's geometry, turns are allowed. */
export function run(cases: number, seed: number): { failures: number; report: string } {
  const rng = seededRng(seed)
  const faults: string[] = []
  let found = 0
  for (let k = 0; k < cases; k++) {
    const shape = shelves[rng.int(shelves.length)]!
    const footprints = mixedPieces(3 + rng.int(4), rng).map(({ footprint }) => footprint)
    footprints.push(circleFootprint(60))
    const turns = footprints.map(() => rotations[rng.int(rotations.length)]!)
    const region = shelfRegion(shape, 0, 0, 0)
    const pieces = footprints.map((footprint, i) => ({ outline: outlineOf(footprint), rotation: turns[i]!, region }))
    const obstacles = [{ shape: shapeAt(outlineOf(post), 0), ...postAt, gapMm }]
    const task = { pieces, obstacles, gapMm }
    const start = pieces.map(() => undefined)
    const stances = squeeze(task, start, { seed: k, descents: 30 })
    if (stances === undefined) continue
    found++
    const fault = faultOf(shape, footprints, turns, stances)
    if (fault !== undefined) faults.push(`case ${k}: ${fault}`)
  }
  const rare = found < cases / 4 ? [`only ${found} of ${cases} found`] : []
  return {
    failures: faults.length + rare.length,
    report: [`${found} found`, ...faults.slice(0, 5), ...rare].join('\n'),
  }
}

function faultOf(
  shape: ShelfShape,
  footprints: readonly Footprint[],
  turns: readonly Rotation[],
  stances: readonly Stance[],
): string | undefined {
  const kind = { id: 'shelf', shape, thicknessMm: 19, massKg: 8, count: 1 }
  const lying = { shelfId: 'shelf', xMm: 0, yMm: 0, angleIndex: 0 }
  const outlines = stances.map(({ xMm, yMm, angleIndex }, i) => placed(footprints[i]!, xMm, yMm, angleIndex))
  const standing = [placed(post, postAt.xMm, postAt.yMm, 0), ...outlines]
  for (const [i, outline] of outlines.entries()) {
    const step = { any: 1, quarter: ANGLE_STEPS / 4, half: ANGLE_STEPS / 2, none: ANGLE_STEPS }[turns[i]!]
    if (!Number.isInteger(stances[i]!.angleIndex) || stances[i]!.angleIndex % step !== 0) return `piece ${i} is turned`
    if (roomMm(outline, (p) => shelfRoomMm(kind, lying, p)) < -FORGIVEN_MM) return `piece ${i} over the edge`
    const others = standing.slice(0, i + 1)
    if (others.some((other) => distanceMm(outline, other) < gapMm - FORGIVEN_MM)) return `piece ${i} too close`
  }
  return undefined
}
