/**
 * Circles crowded into a round container, and the energy of their overlaps: the sum of squares of how deep each lies in
 * another or beyond the wall. Variables are x0, y0, x1, y1 ... and, when there is one more, the container's radius.
 */
export type Crowd = {
  /** In rising order. */
  readonly radii: Float64Array
  /** Radius of the container where it is no variable. */
  container: number
  /** What a unit of the container's radius costs where it is one; less makes harder circles. */
  price: number
  /** Pairs near enough to meet before any circle has moved by `SKIN / 2`, and where all were when they were listed. */
  pairs: Int32Array
  pairCount: number
  readonly listedAt: Float64Array
}

/** Room around each circle within which others are listed, in mean radii, which is the unit of length here. */
const SKIN = 0.6

export function crowdOf(radii: Float64Array): Crowd {
  const count = radii.length
  return {
    radii,
    container: 1,
    price: 0,
    pairs: new Int32Array(count * (count - 1)),
    pairCount: 0,
    listedAt: new Float64Array(2 * count).fill(NaN),
  }
}

export function overlapEnergy(crowd: Crowd, x: Float64Array, slope: Float64Array): number {
  const { radii } = crowd
  const count = radii.length
  if (hasMoved(crowd, x)) listPairs(crowd, x)
  slope.fill(0)
  const isFree = x.length > 2 * count
  const container = isFree ? x[2 * count]! : crowd.container
  let energy = isFree ? crowd.price * container : 0
  let outward = 0
  for (let i = 0; i < count; i++) {
    const px = x[2 * i]!
    const py = x[2 * i + 1]!
    const room = container - radii[i]!
    const away2 = px * px + py * py
    if (room > 0 && away2 <= room * room) continue
    const away = Math.sqrt(away2)
    const deep = away - room
    energy += deep * deep
    outward += deep
    if (away === 0) continue
    slope[2 * i] = slope[2 * i]! + (2 * deep * px) / away
    slope[2 * i + 1] = slope[2 * i + 1]! + (2 * deep * py) / away
  }
  if (isFree) slope[2 * count] = crowd.price - 2 * outward
  return energy + pairEnergy(crowd, x, slope)
}

function pairEnergy({ pairs, pairCount, radii }: Crowd, x: Float64Array, slope: Float64Array): number {
  let energy = 0
  for (let k = 0; k < 2 * pairCount; k += 2) {
    const i = pairs[k]!
    const j = pairs[k + 1]!
    const dx = x[2 * i]! - x[2 * j]!
    const dy = x[2 * i + 1]! - x[2 * j + 1]!
    const reach = radii[i]! + radii[j]!
    const square = dx * dx + dy * dy
    if (square >= reach * reach) continue
    const apart = Math.sqrt(square) + 1e-12
    const deep = reach - apart
    energy += deep * deep
    const push = (2 * deep) / apart
    slope[2 * i] = slope[2 * i]! - push * dx
    slope[2 * i + 1] = slope[2 * i + 1]! - push * dy
    slope[2 * j] = slope[2 * j]! + push * dx
    slope[2 * j + 1] = slope[2 * j + 1]! + push * dy
  }
  return energy
}

function hasMoved({ listedAt }: Crowd, x: Float64Array): boolean {
  for (let i = 0; i < listedAt.length; i += 2) {
    const dx = x[i]! - listedAt[i]!
    const dy = x[i + 1]! - listedAt[i + 1]!
    if (!(dx * dx + dy * dy <= (SKIN * SKIN) / 4)) return true
  }
  return false
}

function listPairs(crowd: Crowd, x: Float64Array): void {
  const { radii, pairs, listedAt } = crowd
  let at = 0
  for (let i = 0; i < radii.length; i++) {
    const px = x[2 * i]!
    const py = x[2 * i + 1]!
    for (let j = 0; j < i; j++) {
      const dx = px - x[2 * j]!
      const dy = py - x[2 * j + 1]!
      const reach = radii[i]! + radii[j]! + SKIN
      if (dx * dx + dy * dy >= reach * reach) continue
      pairs[at++] = i
      pairs[at++] = j
    }
  }
  crowd.pairCount = at / 2
  for (let i = 0; i < listedAt.length; i++) listedAt[i] = x[i]!
}

/** Least container for these centres, scaled apart until no two circles overlap; Infinity when two coincide. */
export function containerNeeded(
  { radii }: Crowd,
  x: Float64Array,
): { readonly scale: number; readonly radius: number } {
  let scale = 1
  for (let i = 0; i < radii.length; i++) {
    for (let j = 0; j < i; j++) {
      const apart = Math.hypot(x[2 * i]! - x[2 * j]!, x[2 * i + 1]! - x[2 * j + 1]!)
      scale = Math.max(scale, (radii[i]! + radii[j]!) / apart)
    }
  }
  let radius = 0
  for (let i = 0; i < radii.length; i++) {
    radius = Math.max(radius, scale * Math.hypot(x[2 * i]!, x[2 * i + 1]!) + radii[i]!)
  }
  return { scale, radius }
}

/** Whether all circles are of one size; the radii are in rising order. */
export const areEqual = ({ radii }: Crowd): boolean => radii[0] === radii.at(-1)
