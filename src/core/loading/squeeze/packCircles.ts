import { seededRng, type Rng } from '#core/rng.ts'
import { hop, honeycomb, scatter } from './circleMoves.ts'
import { areEqual, containerNeeded, crowdOf, overlapEnergy, type Crowd } from './crowd.ts'
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
  scatter(crowd, hopper.rng, start, Math.sqrt(square(crowd.radii) / 0.8))
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
    hop(crowd, rng, next)
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
  if (areEqual(crowd) && k % 3 === 1) honeycomb(rng, x)
  else if (k % 3 === 2) {
    x.set(best.x)
    for (let i = 0; i < x.length; i++) x[i] = x[i]! + 0.8 * (rng.next() - 0.5)
  } else scatter(crowd, rng, x, crowd.container)
  return x
}

const square = (radii: Float64Array): number => radii.reduce((sum, radius) => sum + radius * radius, 0)
