import { seededRng, type Rng } from '#core/rng.ts'
import { containerNeeded, crowdOf, overlapEnergy, type Crowd } from './crowd.ts'
import { descend, descentRoom, type DescentRoom } from './descend.ts'

/** Circles without overlap in the least round container found; centres from the middle of the container. */
export type CirclePacking = { readonly radius: number; readonly centres: readonly (readonly [number, number])[] }

export type CircleSearch = {
  readonly seed: number
  /** Local minima visited at most. */
  readonly hops: number
  /** Asked after each; true ends the search with the best so far. */
  readonly cancelled?: () => boolean
}

/**
 * How much smaller than the best a container is aimed at, series by series. Mixed sizes are sorted out better under
 * pressure; equal ones jam under it, but near the least container nothing else tells good layouts from the best.
 */
const AIMS = { equal: [0.9995, 0.995], mixed: [0.96] } as const

/**
 * Packs circles into a round container as small as the search finds: overlaps in a container slightly too small are
 * minimised from start after start, a circle is taken out and set into the emptiest spot or two of near sizes change
 * places, and every promising layout is tightened.
 * @param radii positive, in any one unit
 * @see the moves: Ye, Huang & Lu (2013), arXiv 1306.0694; basin hopping: Grosso et al. (2010), J. Glob. Optim. 47, 63-81
 */
export function packCircles(radii: readonly number[], search: CircleSearch): CirclePacking {
  if (radii.length === 0 || !radii.every((radius) => radius > 0 && radius < Infinity))
    throw new RangeError('radii must be positive lengths')
  const order = radii.map((_, i) => i).toSorted((a, b) => radii[a]! - radii[b]! || a - b)
  const unit = radii.reduce((sum, radius) => sum + radius, 0) / radii.length
  const crowd = crowdOf(Float64Array.from(order, (i) => radii[i]! / unit))
  const best = searched(crowd, search)
  const centres: [number, number][] = radii.map(() => [0, 0])
  order.forEach((i, k) => (centres[i] = [best.x[2 * k]! * unit, best.x[2 * k + 1]! * unit]))
  return { radius: best.radius * unit, centres }
}

type Layout = { x: Float64Array; radius: number }

type Hopper = {
  readonly crowd: Crowd
  readonly rng: Rng
  readonly room: DescentRoom
  readonly tightRoom: DescentRoom
  readonly best: Layout
  readonly aims: readonly number[]
}

function searched(crowd: Crowd, { seed, hops, cancelled }: CircleSearch): Layout {
  const count = crowd.radii.length
  const start = new Float64Array(2 * count)
  const hopper: Hopper = {
    crowd,
    rng: seededRng(seed),
    room: descentRoom(2 * count),
    tightRoom: descentRoom(2 * count + 1),
    best: { x: start, radius: Infinity },
    aims: areEqual(crowd) ? AIMS.equal : AIMS.mixed,
  }
  scatter(hopper, start, Math.sqrt(square(crowd.radii) / 0.8))
  tighten(hopper, start)
  let left = hops
  const isOver = () => left-- <= 0 || (cancelled !== undefined && cancelled())
  for (let k = 0; !isOver(); k++) series(hopper, k, isOver)
  return hopper.best
}

/** Hops from one start until a long while brought nothing. */
function series(hopper: Hopper, k: number, isOver: () => boolean): void {
  const { crowd, rng, best } = hopper
  const count = crowd.radii.length
  const aim = hopper.aims[k % hopper.aims.length]!
  crowd.container = best.radius * aim
  let x = started(hopper, k)
  let energy = settle(hopper, x)
  let low = x.slice()
  let lowest = energy
  const patience = 30 + 3 * count
  for (let fails = 0; fails < patience && !isOver();) {
    const next = x.slice()
    move(hopper, next)
    const nextEnergy = settle(hopper, next)
    if (nextEnergy <= energy || rng.next() < 0.5 * Math.exp(-(nextEnergy - energy) / (0.02 * energy))) {
      x = next
      energy = nextEnergy
    }
    if (nextEnergy < lowest * 0.999) {
      lowest = nextEnergy
      low = next.slice()
      fails = 0
      if (lowest < 2e-3 * count) tighten(hopper, low)
      if (lowest < 1e-18) {
        crowd.container = best.radius * aim
        energy = settle(hopper, x)
        lowest = Infinity
      }
    } else {
      fails++
      if (fails % 25 === 0) {
        x = low.slice()
        energy = settle(hopper, x)
      }
    }
  }
  tighten(hopper, low)
}

function settle({ crowd, room }: Hopper, x: Float64Array): number {
  return descend(
    (at, slope) => overlapEnergy(crowd, at, slope),
    x,
    { iterations: 150, enough: 1e-20, leastGain: 1e-4, longestStep: 1 },
    room,
  )
}

/** Finds the container the layout needs, with its radius as a variable that is made ever cheaper; keeps the best. */
function tighten({ crowd, tightRoom, best }: Hopper, from: Float64Array): void {
  const x = new Float64Array(from.length + 1)
  x.set(from)
  x[from.length] = crowd.container
  for (const price of [0.1, 1e-2, 1e-3, 1e-4, 1e-5, 1e-6]) {
    crowd.price = price
    descend(
      (at, slope) => overlapEnergy(crowd, at, slope),
      x,
      { iterations: 150, enough: 0, leastGain: 1e-12, longestStep: 1 },
      tightRoom,
    )
  }
  const { scale, radius } = containerNeeded(crowd, x)
  if (radius >= best.radius) return
  best.radius = radius
  best.x = x.slice(0, from.length).map((value) => value * scale)
}

function started(hopper: Hopper, k: number): Float64Array {
  const { crowd, best, rng } = hopper
  const x = new Float64Array(2 * crowd.radii.length)
  if (areEqual(crowd) && k % 3 === 1) honeycomb(hopper, x)
  else if (k % 3 === 2) {
    x.set(best.x)
    for (let i = 0; i < x.length; i++) x[i] = x[i]! + 0.8 * (rng.next() - 0.5)
  } else scatter(hopper, x, crowd.container)
  return x
}

function scatter({ crowd, rng }: Hopper, x: Float64Array, container: number): void {
  for (let i = 0; i < crowd.radii.length; i++) {
    const angle = 2 * Math.PI * rng.next()
    const away = Math.sqrt(rng.next()) * Math.max(0, container - crowd.radii[i]!)
    x[2 * i] = away * Math.cos(angle)
    x[2 * i + 1] = away * Math.sin(angle)
  }
}

/** Equal circles in a honeycomb, with its middle anywhere and the outermost ones let go. */
function honeycomb({ rng }: Hopper, x: Float64Array): void {
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

function move(hopper: Hopper, x: Float64Array): void {
  const { crowd, rng } = hopper
  const count = crowd.radii.length
  const kind = rng.next()
  if (!areEqual(crowd) && kind < 0.6) swapNear(hopper, x)
  else if (kind < 0.9) {
    const i = areEqual(crowd) ? worstOf(hopper, x) : Math.floor(rng.next() * rng.next() * count)
    insert(hopper, x, i)
  } else for (let i = 0; i < x.length; i++) x[i] = x[i]! + 0.8 * (rng.next() - 0.5) * rng.next()
}

/** Two circles of near sizes change places. */
function swapNear({ crowd, rng }: Hopper, x: Float64Array): void {
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
function worstOf({ crowd, rng }: Hopper, x: Float64Array): number {
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
function insert({ crowd, rng }: Hopper, x: Float64Array, i: number): void {
  const room = crowd.container - crowd.radii[i]!
  let least = Infinity
  let [bestX, bestY] = [x[2 * i]!, x[2 * i + 1]!]
  for (let k = 0; k < 10; k++) {
    const angle = 2 * Math.PI * rng.next()
    const away = Math.sqrt(rng.next()) * room
    const [px, py] = [away * Math.cos(angle), away * Math.sin(angle)]
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

const square = (radii: Float64Array): number => radii.reduce((sum, radius) => sum + radius * radius, 0)

/** The radii are in rising order. */
const areEqual = ({ radii }: Crowd): boolean => radii[0] === radii.at(-1)
