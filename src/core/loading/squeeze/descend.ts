/** Gives the energy at `x` and writes its slope into `slope`. */
export type Energy = (x: Float64Array, slope: Float64Array) => number

export type DescentLimits = {
  readonly iterations: number
  /** Energy at which it is low enough to stop. */
  readonly enough: number
  /** Stops when a step lowers the energy by less than this share of it. */
  readonly leastGain: number
  /** Farthest that any one variable may move in a step. */
  readonly longestStep: number
}

/** Arrays of one size, written over by each descent: a search makes thousands. */
export type DescentRoom = {
  readonly slope: Float64Array
  readonly nextX: Float64Array
  readonly nextSlope: Float64Array
  readonly direction: Float64Array
  /** The last moves, and how the slope changed over each, one after another. */
  readonly moves: Float64Array
  readonly turns: Float64Array
}

/** Moves remembered for the estimate of curvature. */
const MEMORY = 4
/** First step as a share of the slope; right for a sum of squares in which a variable has a few terms. */
const FIRST_SHARE = 0.25
/** Share of the promised gain that a step must bring. */
const ARMIJO = 1e-4

export function descentRoom(size: number): DescentRoom {
  const room = () => new Float64Array(size)
  const history = () => new Float64Array(size * MEMORY)
  return {
    slope: room(),
    nextX: room(),
    nextSlope: room(),
    direction: room(),
    moves: history(),
    turns: history(),
  }
}

/**
 * Takes `x` downhill to a local minimum, in place, by L-BFGS with halved steps.
 * @returns the energy there
 * @see Liu & Nocedal (1989), Math. Programming 45, 503-528; the two loops: Nocedal & Wright, Numerical Optimization, alg. 7.4
 */
export function descend(energy: Energy, x: Float64Array, limits: DescentLimits, room: DescentRoom): number {
  const { slope, nextX, nextSlope, direction } = room
  let value = energy(x, slope)
  let known = 0
  let newest = -1
  for (let iteration = 0; iteration < limits.iterations && value > limits.enough; iteration++) {
    let promised = towardsMinimum(room, known, newest)
    if (promised > -1e-32) {
      if (known === 0) break
      known = 0
      promised = towardsMinimum(room, known, newest)
    }
    let step = limits.longestStep / Math.max(limits.longestStep, largestOf(direction))
    let nextValue = Infinity
    for (let halving = 0; halving < 20; halving++) {
      for (let i = 0; i < x.length; i++) nextX[i] = x[i]! + step * direction[i]!
      nextValue = energy(nextX, nextSlope)
      if (nextValue <= value + ARMIJO * step * promised) break
      nextValue = Infinity
      step /= 2
    }
    if (nextValue === Infinity) {
      if (known === 0) break
      known = 0
      continue
    }
    newest = (newest + 1) % MEMORY
    known = remember(room, x, newest) ? Math.min(MEMORY, known + 1) : 0
    x.set(nextX)
    slope.set(nextSlope)
    const gain = value - nextValue
    value = nextValue
    if (gain < limits.leastGain * value) break
  }
  return value
}

const along = new Float64Array(MEMORY)
const bends = new Float64Array(MEMORY)

/** Sets the direction; returns the slope along it. */
function towardsMinimum({ slope, direction, moves, turns }: DescentRoom, known: number, newest: number): number {
  const size = slope.length
  for (let i = 0; i < size; i++) direction[i] = -slope[i]!
  for (let back = 0; back < known; back++) {
    const k = (newest - back + MEMORY) % MEMORY
    const share = product(moves, k * size, direction, size) / bends[k]!
    along[k] = share
    for (let i = 0, j = k * size; i < size; i++, j++) direction[i] = direction[i]! - share * turns[j]!
  }
  const start = known === 0 ? FIRST_SHARE : bends[newest]! / square(turns, newest * size, size)
  for (let i = 0; i < size; i++) direction[i] = direction[i]! * start
  for (let back = known - 1; back >= 0; back--) {
    const k = (newest - back + MEMORY) % MEMORY
    const share = along[k]! - product(turns, k * size, direction, size) / bends[k]!
    for (let i = 0, j = k * size; i < size; i++, j++) direction[i] = direction[i]! + share * moves[j]!
  }
  let sum = 0
  for (let i = 0; i < size; i++) sum += slope[i]! * direction[i]!
  return sum
}

/** False when the slope does not rise along the move, so that no curvature is to be learned from it. */
function remember({ slope, nextX, nextSlope, moves, turns }: DescentRoom, x: Float64Array, slot: number): boolean {
  const size = x.length
  let bend = 0
  for (let i = 0, j = slot * size; i < size; i++, j++) {
    const move = nextX[i]! - x[i]!
    const turn = nextSlope[i]! - slope[i]!
    moves[j] = move
    turns[j] = turn
    bend += move * turn
  }
  bends[slot] = bend
  return bend > 1e-24
}

function product(first: Float64Array, from: number, second: Float64Array, size: number): number {
  let sum = 0
  for (let i = 0, j = from; i < size; i++, j++) sum += first[j]! * second[i]!
  return sum
}

function square(values: Float64Array, from: number, size: number): number {
  let sum = 0
  for (let j = from; j < from + size; j++) sum += values[j]! * values[j]!
  return sum
}

function largestOf(values: Float64Array): number {
  let largest = 0
  for (let i = 0; i < values.length; i++) {
    const size = Math.abs(values[i]!)
    if (size > largest) largest = size
  }
  return largest
}
