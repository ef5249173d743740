import type { Rng } from '#core/rng.ts'
import { directionOf } from '../angles.ts'
import { areEqual, type Crowd } from './crowd.ts'

/** Spots tried for a circle that is set elsewhere. */
const SPOTS_TRIED = 10

/** One circle is set elsewhere, two of near sizes change places, or all are shaken. */
export function hop(crowd: Crowd, rng: Rng, x: Float64Array): void {
  const count = crowd.radii.length
  const kind = rng.next()
  if (!areEqual(crowd) && kind < 0.6) swapNear(crowd, rng, x)
  else if (kind < 0.9) {
    const i = areEqual(crowd) ? worstOf(crowd, rng, x) : Math.floor(rng.next() * rng.next() * count)
    insert(crowd, rng, x, i)
  } else for (let i = 0; i < x.length; i++) x[i] = x[i]! + 0.8 * (rng.next() - 0.5) * rng.next()
}

/** Two circles of near sizes change places. */
function swapNear(crowd: Crowd, rng: Rng, x: Float64Array): void {
  const count = crowd.radii.length
  const i = rng.int(count)
  const stride = 1 + Math.floor(rng.next() * rng.next() * Math.max(2, count / 3))
  const j = Math.min(count - 1, Math.max(0, i + (rng.next() < 0.5 ? -stride : stride)))
  for (const c of [0, 1]) {
    const kept = x[2 * i + c]!
    x[2 * i + c] = x[2 * j + c]!
    x[2 * j + c] = kept
  }
}

/** Of a few circles the one that lies deepest in others. */
function worstOf(crowd: Crowd, rng: Rng, x: Float64Array): number {
  const tries = 1 + rng.int(4)
  let worst = 0
  let deepest = -1
  for (let k = 0; k < tries; k++) {
    const i = rng.int(crowd.radii.length)
    const deep = depthAt(crowd, x, i, x[2 * i]!, x[2 * i + 1]!)
    if (deep > deepest) {
      deepest = deep
      worst = i
    }
  }
  return worst
}

/** Sets a circle down where it lies least deep in others, of some spots tried. */
function insert(crowd: Crowd, rng: Rng, x: Float64Array, i: number): void {
  const room = crowd.container - crowd.radii[i]!
  let least = Infinity
  let [bestX, bestY] = [x[2 * i]!, x[2 * i + 1]!]
  for (let k = 0; k < SPOTS_TRIED; k++) {
    const [cos, sin] = directionOf(rng.next())
    const away = Math.sqrt(rng.next()) * room
    const [px, py] = [away * cos, away * sin]
    const deep = depthAt(crowd, x, i, px, py)
    if (deep >= least) continue
    least = deep
    bestX = px
    bestY = py
  }
  x[2 * i] = bestX
  x[2 * i + 1] = bestY
}

/** How deep a circle would lie in the others there, squares summed. */
function depthAt({ radii, container }: Crowd, x: Float64Array, i: number, px: number, py: number): number {
  const beyond = Math.max(0, Math.hypot(px, py) + radii[i]! - container)
  let sum = beyond * beyond
  for (let j = 0; j < radii.length; j++) {
    if (j === i) continue
    const dx = px - x[2 * j]!
    const dy = py - x[2 * j + 1]!
    const reach = radii[i]! + radii[j]!
    const apart2 = dx * dx + dy * dy
    if (apart2 < reach * reach) sum += (reach - Math.sqrt(apart2)) ** 2
  }
  return sum
}

/** Circles anywhere in a container. */
export function scatter({ radii }: Crowd, rng: Rng, x: Float64Array, container: number): void {
  for (let i = 0; i < radii.length; i++) {
    const [cos, sin] = directionOf(rng.next())
    const away = Math.sqrt(rng.next()) * Math.max(0, container - radii[i]!)
    x[2 * i] = away * cos
    x[2 * i + 1] = away * sin
  }
}

/** Equal circles in a honeycomb, with its middle anywhere and the outermost ones let go. */
export function honeycomb(rng: Rng, x: Float64Array): void {
  const count = x.length / 2
  const [shiftX, shiftY] = [2 * rng.next(), Math.sqrt(3) * rng.next()]
  const reach = Math.ceil(Math.sqrt(count)) + 2
  const spots: [number, number][] = []
  for (let row = -reach; row <= reach; row++) {
    for (let column = -reach; column <= reach; column++) {
      spots.push([2 * column + (row & 1) + shiftX, Math.sqrt(3) * row + shiftY])
    }
  }
  spots.sort((a, b) => a[0] * a[0] + a[1] * a[1] - b[0] * b[0] - b[1] * b[1])
  for (let i = 0; i < count; i++) {
    x[2 * i] = spots[i]![0]
    x[2 * i + 1] = spots[i]![1]
  }
}
