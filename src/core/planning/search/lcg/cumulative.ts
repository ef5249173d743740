import type { Engine, QueuedPropagator } from './engine.ts'
import type { Cumulative } from './model.ts'

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

  // The profile: height[k] from time[k] up to time[k + 1].
  const time = new Int32Array(2 * count + 1)
  const height = new Int32Array(2 * count + 1)
  let pieces = 0
  let highest = 0
  // Of these, those too high for the most demanding task: from `highFrom[k]` up to `highTo[k]` it is `highHeight[k]`.
  const highFrom = new Int32Array(2 * count + 1)
  const highTo = new Int32Array(2 * count + 1)
  const highHeight = new Int32Array(2 * count + 1)
  const leastRoom = capacity - (demand[byDemand[0]!] ?? 0)
  let highPieces = 0
  // Entries by latest start and by earliest end: both orders hardly change from one run to the next.
  const byStart = Int32Array.from(entries.keys())
  const byEnd = Int32Array.from(entries.keys())
  const latestStart = new Int32Array(count)
  const earliestEnd = new Int32Array(count)
  const wasPresent = new Uint8Array(count)
  const changedEntries = new Int32Array(count)
  let changedCount = 0
  // A run that failed has noted changes that it did not follow up.
  let isBroken = false

  const isPresent = (i: number): boolean => presenceSide[i]! < 0 || value[presenceSide[i]!]! >= presenceLeast[i]!
  const isAbsent = (i: number): boolean =>
    presenceSide[i]! >= 0 && value[presenceSide[i]! ^ 1]! >= 1 - presenceLeast[i]!

  /** Notes which entries have other bounds than in the last run. @returns whether a compulsory part changed */
  const noteChanges = (): boolean => {
    let changed = false
    changedCount = 0
    for (let i = 0; i < count; i++) {
      const start = -value[lowerOf[i]! + 1]!
      const end = value[lowerOf[i]!]! + duration[i]!
      const present = presenceSide[i]! < 0 || value[presenceSide[i]!]! >= presenceLeast[i]! ? 1 : 0
      if (start === latestStart[i]! && end === earliestEnd[i]! && present === wasPresent[i]!) continue
      if ((start < end && present === 1) || (latestStart[i]! < earliestEnd[i]! && wasPresent[i] === 1)) changed = true
      latestStart[i] = start
      earliestEnd[i] = end
      wasPresent[i] = present
      changedEntries[changedCount++] = i
    }
    return changed
  }

  const buildProfile = (): void => {
    sortBy(latestStart, byStart)
    sortBy(earliestEnd, byEnd)
    pieces = 0
    highest = 0
    let total = 0
    let s = nextCompulsory(byStart, 0)
    let e = nextCompulsory(byEnd, 0)
    while (e < count) {
      const startMin = s < count ? latestStart[byStart[s]!]! : Infinity
      const at = Math.min(startMin, earliestEnd[byEnd[e]!]!)
      for (; e < count && earliestEnd[byEnd[e]!] === at; e = nextCompulsory(byEnd, e + 1)) total -= demand[byEnd[e]!]!
      for (; s < count && latestStart[byStart[s]!] === at; s = nextCompulsory(byStart, s + 1))
        total += demand[byStart[s]!]!
      time[pieces] = at
      height[pieces++] = total
      if (total > highest) highest = total
    }
    highPieces = 0
    for (let k = 0; k < pieces - 1; k++) {
      if (height[k]! <= leastRoom) continue
      highFrom[highPieces] = time[k]!
      highTo[highPieces] = time[k + 1]!
      highHeight[highPieces++] = height[k]!
    }
  }

  const nextCompulsory = (order: Int32Array, from: number): number => {
    let at = from
    while (at < count && (latestStart[order[at]!]! >= earliestEnd[order[at]!]! || wasPresent[order[at]!] === 0)) at++
    return at
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

  /** The first high piece that ends after `minute`. */
  const firstHighAfter = (minute: number): number => {
    let low = 0
    let high = highPieces
    while (low < high) {
      const middle = (low + high) >> 1
      if (highTo[middle]! <= minute) low = middle + 1
      else high = middle
    }
    return low
  }

  const pushLater = (i: number, room: number): boolean => {
    const lower = lowerOf[i]!
    const lasts = duration[i]!
    const ownStart = -value[lower + 1]!
    let start = value[lower]!
    const ownEnd = start + lasts
    for (let k = firstHighAfter(start); k < highPieces && highFrom[k]! < start + lasts; k++) {
      const end = highTo[k]!
      if (highHeight[k]! <= room || end <= start || (highFrom[k]! >= ownStart && highFrom[k]! < ownEnd)) continue
      // Each step is at most the duration, so that one minute explains it.
      while (start < end) {
        const minute = Math.min(end, start + lasts) - 1
        if (!raise(lower, minute + 1, own, i, minute)) return false
        start = minute + 1
      }
    }
    return true
  }

  const pushEarlier = (i: number, room: number): boolean => {
    const lower = lowerOf[i]!
    const lasts = duration[i]!
    const ownStart = -value[lower + 1]!
    const ownEnd = value[lower]! + lasts
    let end = ownStart + lasts
    let k = firstHighAfter(end - 1)
    if (k === highPieces || highFrom[k]! >= end) k--
    for (; k >= 0 && highTo[k]! > end - lasts; k--) {
      const begin = highFrom[k]!
      if (highHeight[k]! <= room || begin >= end || (begin >= ownStart && begin < ownEnd)) continue
      while (end > begin) {
        const minute = Math.max(begin, end - lasts)
        if (!raise(lower + 1, lasts - minute, own, i, minute)) return false
        end = minute
      }
    }
    return true
  }

  /** An optional task that would surely stand in a full minute is left out: one minute must tell why. */
  const leaveOut = (i: number, room: number): boolean => {
    const ownStart = latestStart[i]!
    if (ownStart >= earliestEnd[i]!) return true
    for (let k = firstHighAfter(ownStart); k < highPieces && highFrom[k]! < earliestEnd[i]!; k++) {
      if (highHeight[k]! > room) {
        const minute = Math.max(highFrom[k]!, ownStart)
        return raise(presenceSide[i]! ^ 1, 1 - presenceLeast[i]!, own, i, minute)
      }
    }
    return true
  }

  const filter = (i: number): boolean => {
    const room = capacity - demand[i]!
    if (highest <= room || isAbsent(i)) return true
    if (!isPresent(i)) return leaveOut(i, room)
    if (value[lowerOf[i]!]! === -value[lowerOf[i]! + 1]!) return true
    return pushLater(i, room) && pushEarlier(i, room)
  }

  const filterAll = (): boolean => {
    if (noteChanges() || isBroken) {
      buildProfile()
      if (highest > capacity && overloads()) return false
      for (let i = 0; i < count && pieces > 0; i++) if (!filter(i)) return false
      return true
    }
    // The profile is as it was, so only what moved under it can meet something new.
    for (let k = 0; k < changedCount && pieces > 0; k++) if (!filter(changedEntries[k]!)) return false
    return true
  }

  const run = (): boolean => {
    isBroken = !filterAll()
    return !isBroken
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

/** Insertion sort of indices by their keys: quick when they are nearly in order. */
function sortBy(keys: Int32Array, order: Int32Array): void {
  for (let i = 1; i < order.length; i++) {
    const index = order[i]!
    const key = keys[index]!
    let at = i - 1
    for (; at >= 0 && keys[order[at]!]! > key; at--) order[at + 1] = order[at]!
    order[at + 1] = index
  }
}
