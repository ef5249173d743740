import type { Engine, QueuedPropagator } from './engine.ts'
import type { Cumulative } from './model.ts'

/** Demands are packed beside their time into one number, so that a typed array sorts them without a comparison. */
const PACK = 1 << 20
const ZERO_DEMAND = 1 << 19

/**
 * Time-table: a task surely runs between its latest start and its earliest end. Where these compulsory parts leave too
 * little room for a task, its bounds move past. Explained point by point: task j surely covers minute t because
 * t - d_j + 1 <= s_j <= t.
 * @see Schutt, Feydy, Stuckey, Wallace (2011), Explaining the cumulative propagator, Constraints 16
 */
export function cumulativePropagator(engine: Engine, { capacity, entries }: Cumulative): QueuedPropagator {
  const { value, raise, conflict } = engine
  const own = engine.propagators.length
  const count = entries.length
  const lowerOf = Int32Array.from(entries, ({ start }) => 2 * start)
  const duration = Int32Array.from(entries, (entry) => entry.duration)
  const demand = Int32Array.from(entries, (entry) => entry.demand)
  const presenceSide = Int32Array.from(entries, ({ presence }) => presence?.side ?? -1)
  const presenceLeast = Int32Array.from(entries, ({ presence }) => presence?.least ?? 0)
  const byDemand = Int32Array.from(Array.from(entries.keys()).toSorted((i, j) => demand[j]! - demand[i]!))
  if (entries.some((entry) => entry.demand >= ZERO_DEMAND)) throw new RangeError('a demand must stay under 2^19')

  // The profile: height[k] from time[k] up to time[k + 1].
  const events = new Float64Array(2 * count)
  const time = new Int32Array(2 * count + 1)
  const height = new Int32Array(2 * count + 1)
  let pieces = 0
  let highest = 0

  const isPresent = (i: number): boolean => presenceSide[i]! < 0 || value[presenceSide[i]!]! >= presenceLeast[i]!
  const isAbsent = (i: number): boolean =>
    presenceSide[i]! >= 0 && value[presenceSide[i]! ^ 1]! >= 1 - presenceLeast[i]!

  const buildProfile = (): void => {
    let eventCount = 0
    for (let i = 0; i < count; i++) {
      const latestStart = -value[lowerOf[i]! + 1]!
      const earliestEnd = value[lowerOf[i]!]! + duration[i]!
      if (latestStart >= earliestEnd || !isPresent(i)) continue
      events[eventCount++] = latestStart * PACK + ZERO_DEMAND + demand[i]!
      events[eventCount++] = earliestEnd * PACK + ZERO_DEMAND - demand[i]!
    }
    events.subarray(0, eventCount).sort()
    pieces = 0
    highest = 0
    for (let i = 0, total = 0; i < eventCount;) {
      const at = Math.floor(events[i]! / PACK)
      for (; i < eventCount && events[i]! < (at + 1) * PACK; i++) total += events[i]! - at * PACK - ZERO_DEMAND
      time[pieces] = at
      height[pieces++] = total
      if (total > highest) highest = total
    }
  }

  /** Pushes the fewest large demands that surely cover `minute` before `entry` and sum to more than `room`. */
  const explainHeight = (minute: number, room: number, except: number, entry: number, out: number[]): void => {
    let total = 0
    chosen.length = 0
    for (let k = 0; k < count && total <= room; k++) {
      const i = byDemand[k]!
      if (i !== except && covered(i, minute, entry)) {
        total += demand[i]!
        chosen.push(i)
      }
    }
    for (let k = chosen.length - 1; k >= 0; k--) {
      const i = chosen[k]!
      if (total - demand[i]! > room) total -= demand[i]!
      else {
        out.push(lowerOf[i]!, minute - duration[i]! + 1, lowerOf[i]! + 1, -minute)
        if (presenceSide[i]! >= 0) out.push(presenceSide[i]!, presenceLeast[i]!)
      }
    }
  }
  const chosen: number[] = []

  const covered = (i: number, minute: number, entry: number): boolean =>
    engine.heldBefore(lowerOf[i]!, minute - duration[i]! + 1, entry) &&
    engine.heldBefore(lowerOf[i]! + 1, -minute, entry) &&
    (presenceSide[i]! < 0 || engine.heldBefore(presenceSide[i]!, presenceLeast[i]!, entry))

  const overloads = (): boolean => {
    for (let k = 0; k < pieces; k++) {
      if (height[k]! <= capacity) continue
      conflict.length = 0
      explainHeight((time[k]! + time[k + 1]! - 1) >> 1, capacity, -1, engine.trail.length, conflict)
      return true
    }
    return false
  }

  /** The last piece that begins at or before `minute`, or 0. */
  const pieceAt = (minute: number): number => {
    let low = 0
    let high = pieces - 1
    while (low < high) {
      const middle = (low + high + 1) >> 1
      if (time[middle]! <= minute) low = middle
      else high = middle - 1
    }
    return low
  }

  const pushLater = (i: number, room: number): boolean => {
    const lower = lowerOf[i]!
    const latestStart = -value[lower + 1]!
    const ownEnd = value[lower]! + duration[i]!
    let start = value[lower]!
    for (let k = pieceAt(start); k < pieces - 1 && time[k]! < start + duration[i]!; k++) {
      const end = time[k + 1]!
      if (height[k]! <= room || end <= start || (time[k]! >= latestStart && time[k]! < ownEnd)) continue
      // Each step is at most the duration, so that one minute explains it.
      while (start < end) {
        const minute = Math.min(end, start + duration[i]!) - 1
        if (!raise(lower, minute + 1, own, i, minute)) return false
        start = minute + 1
      }
    }
    return true
  }

  const pushEarlier = (i: number, room: number): boolean => {
    const lower = lowerOf[i]!
    const latestStart = -value[lower + 1]!
    const ownEnd = value[lower]! + duration[i]!
    let end = latestStart + duration[i]!
    for (let k = Math.min(pieceAt(end - 1), pieces - 2); k >= 0 && time[k + 1]! > end - duration[i]!; k--) {
      const begin = time[k]!
      if (height[k]! <= room || begin >= end || (begin >= latestStart && begin < ownEnd)) continue
      while (end > begin) {
        const minute = Math.max(begin, end - duration[i]!)
        if (!raise(lower + 1, duration[i]! - minute, own, i, minute)) return false
        end = minute
      }
    }
    return true
  }

  /** An optional task that would surely stand in a full minute is left out. */
  const leaveOut = (i: number, room: number): boolean => {
    const latestStart = -value[lowerOf[i]! + 1]!
    const earliestEnd = value[lowerOf[i]!]! + duration[i]!
    for (let k = pieceAt(latestStart); k < pieces - 1 && time[k]! < earliestEnd; k++) {
      const minute = Math.max(time[k]!, latestStart)
      if (height[k]! > room && time[k + 1]! > minute) {
        return raise(presenceSide[i]! ^ 1, 1 - presenceLeast[i]!, own, i, minute)
      }
    }
    return true
  }

  const run = (): boolean => {
    buildProfile()
    if (highest > capacity && overloads()) return false
    for (let i = 0; i < count && pieces > 0; i++) {
      const room = capacity - demand[i]!
      if (highest <= room || isAbsent(i)) continue
      if (!isPresent(i)) {
        if (!leaveOut(i, room)) return false
      } else if (value[lowerOf[i]!]! < -value[lowerOf[i]! + 1]!) {
        if (!pushLater(i, room) || !pushEarlier(i, room)) return false
      }
    }
    return true
  }

  return {
    wakingSides: entries.flatMap(({ start, presence }) =>
      presence ? [2 * start, 2 * start + 1, presence.side] : [2 * start, 2 * start + 1],
    ),
    run,
    explain: (side, _least, i, minute, entry, out) => {
      const lower = lowerOf[i]!
      if (side === lower) out.push(lower, minute + 1 - duration[i]!)
      else if (side === lower + 1) out.push(lower + 1, -minute)
      else out.push(lower, minute - duration[i]! + 1, lower + 1, -minute)
      if (side >> 1 === lower >> 1 && presenceSide[i]! >= 0) out.push(presenceSide[i]!, presenceLeast[i]!)
      explainHeight(minute, capacity - demand[i]!, i, entry, out)
    },
  }
}
