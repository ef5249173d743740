import { cosOf, sinOf } from './angles.ts'
import { convexPartsOf, doubleAreaOf, isSimple } from './polygon.ts'
import { ANGLE_STEPS, type Footprint, type Point, type Reason } from './types.ts'

/** How far an oval's outer hull stands off the true ellipse at most, mm. */
export const OVAL_TOLERANCE_MM = 0.1

/** A polygon's outline, or why it cannot be one: `outline-too-few-points`, `outline-not-a-number`, `outline-crosses-itself`. */
export type PolygonFootprint = { readonly footprint: Footprint } | { readonly refused: Reason }

/** Exact. @param diameterMm > 0 */
export function circleFootprint(diameterMm: number): Footprint {
  assertPositive(diameterMm)
  return { hulls: [[{ xMm: 0, yMm: 0 }]], radiusMm: diameterMm / 2 }
}

/**
 * Exact, centred, length along x; a stadium or circle when the corners take up the sides.
 * @param cornerRadiusMm 0 to half the shorter side; more counts as half
 */
export function rectangleFootprint(lengthMm: number, widthMm: number, cornerRadiusMm = 0): Footprint {
  assertPositive(lengthMm)
  assertPositive(widthMm)
  const radiusMm = Math.max(0, Math.min(cornerRadiusMm, lengthMm / 2, widthMm / 2))
  const x = lengthMm / 2 - radiusMm
  const y = widthMm / 2 - radiusMm
  if (x === 0 && y === 0) return { hulls: [[{ xMm: 0, yMm: 0 }]], radiusMm }
  if (y === 0) return { hulls: [pointsOf([-x, 0, x, 0])], radiusMm }
  if (x === 0) return { hulls: [pointsOf([0, -y, 0, y])], radiusMm }
  return { hulls: [pointsOf([-x, -y, x, -y, x, y, -x, y])], radiusMm }
}

/**
 * An ellipse by its outer hull: nothing of the true outline lies outside it, and it stands off by `OVAL_TOLERANCE_MM`
 * at most. Shrinking the ellipse by its least radius of curvature first leaves far fewer corners.
 */
export function ovalFootprint(lengthMm: number, widthMm: number): Footprint {
  assertPositive(lengthMm)
  assertPositive(widthMm)
  if (lengthMm < widthMm) return quarterTurned(ovalFootprint(widthMm, lengthMm))
  if (lengthMm === widthMm) return circleFootprint(lengthMm)
  const a = lengthMm / 2
  const b = widthMm / 2
  const radiusMm = (b * b) / a
  const directions = tangentSteps(a, b, radiusMm)
  const corners = directions.map((step, i) =>
    tangentCorner(a, b, radiusMm, step, directions[(i + 1) % directions.length]!),
  )
  return { hulls: [corners], radiusMm }
}

/** A simple polygon, exact, as the union of convex parts; corners in either sense. */
export function polygonFootprint(corners: readonly Point[], radiusMm = 0): PolygonFootprint {
  const refused = (code: string): PolygonFootprint => ({ refused: { code, params: { corners: corners.length } } })
  if (corners.length < 3) return refused('outline-too-few-points')
  if (corners.some((p) => !Number.isFinite(p.xMm) || !Number.isFinite(p.yMm))) return refused('outline-not-a-number')
  if (!isSimple(corners) || doubleAreaOf(corners) === 0) return refused('outline-crosses-itself')
  return { footprint: { hulls: convexPartsOf(corners), radiusMm: Math.max(0, radiusMm) } }
}

/** Steps of the angle table at which tangents touch, close enough for the tolerance; symmetric in both axes. */
function tangentSteps(a: number, b: number, radiusMm: number): number[] {
  const quarter = ANGLE_STEPS / 4
  const steps = [0]
  for (let step = 0; step < quarter;) {
    let stride = quarter - step
    while (stride > 1 && overshootMm(a, b, radiusMm, step, step + stride) > OVAL_TOLERANCE_MM) stride--
    step += stride
    steps.push(step)
  }
  const half = [
    ...steps,
    ...steps
      .slice(0, -1)
      .reverse()
      .map((step) => ANGLE_STEPS / 2 - step),
  ]
  return [...half.slice(0, -1), ...half.slice(0, -1).map((step) => step + ANGLE_STEPS / 2)]
}

/** Distance from the corner of two tangents to the rounded curve between them, from above. */
function overshootMm(a: number, b: number, radiusMm: number, fromStep: number, toStep: number): number {
  const corner = tangentCorner(a, b, radiusMm, fromStep, toStep)
  const first = touchPoint(a, b, radiusMm, fromStep)
  const last = touchPoint(a, b, radiusMm, toStep)
  const chordX = last.xMm - first.xMm
  const chordY = last.yMm - first.yMm
  const chord = Math.hypot(chordX, chordY)
  if (chord === 0) return 0
  return Math.abs(chordX * (corner.yMm - first.yMm) - chordY * (corner.xMm - first.xMm)) / chord
}

function touchPoint(a: number, b: number, radiusMm: number, step: number): Point {
  const c = cosOf(step)
  const s = sinOf(step)
  const support = Math.sqrt(a * a * c * c + b * b * s * s)
  return { xMm: (a * a * c) / support - radiusMm * c, yMm: (b * b * s) / support - radiusMm * s }
}

function tangentCorner(a: number, b: number, radiusMm: number, fromStep: number, toStep: number): Point {
  const [c0, s0, c1, s1] = [cosOf(fromStep), sinOf(fromStep), cosOf(toStep), sinOf(toStep)]
  const h0 = Math.sqrt(a * a * c0 * c0 + b * b * s0 * s0) - radiusMm
  const h1 = Math.sqrt(a * a * c1 * c1 + b * b * s1 * s1) - radiusMm
  const cross = c0 * s1 - s0 * c1
  return { xMm: (h0 * s1 - h1 * s0) / cross, yMm: (c0 * h1 - c1 * h0) / cross }
}

function quarterTurned(footprint: Footprint): Footprint {
  const hulls = footprint.hulls.map((hull) => hull.map((p) => ({ xMm: -p.yMm, yMm: p.xMm })))
  return { hulls, radiusMm: footprint.radiusMm }
}

function pointsOf(flat: readonly number[]): Point[] {
  const points: Point[] = []
  for (let i = 0; i + 1 < flat.length; i += 2) points.push({ xMm: flat[i]!, yMm: flat[i + 1]! })
  return points
}

function assertPositive(valueMm: number): void {
  if (!(valueMm > 0) || !Number.isFinite(valueMm))
    throw new RangeError(`a side must be a positive length, not ${valueMm}`)
}
