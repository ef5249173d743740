/** Things that are counted and given back: ware boards, places on a spot, moulds, kilns, power supplies. */
import type { Minute } from '#core/time.ts'

/** How many are taken from a moment on, as changes in rising time. */
export type Room = { readonly capacity: number; readonly changes: { minute: Minute; by: number }[] }

export const emptyRoom = (capacity: number): Room => ({ capacity, changes: [] })

export const copyOfRoom = ({ capacity, changes }: Room): Room => ({ capacity, changes: [...changes] })

/** Takes `count` from `fromMin` up to `toMin`; a negative count gives back what was taken so. */
export function take(room: Room, count: number, fromMin: Minute, toMin: Minute): void {
  if (count === 0 || toMin <= fromMin) return
  insert(room.changes, { minute: fromMin, by: count })
  insert(room.changes, { minute: toMin, by: -count })
}

/** The least that is free at any moment of [fromMin, toMin). */
export function leastFree(room: Room, fromMin: Minute, toMin: Minute): number {
  let taken = 0
  let mostTaken = 0
  let begun = false
  for (const { minute, by } of room.changes) {
    if (minute >= toMin) break
    if (minute > fromMin && !begun) {
      mostTaken = taken
      begun = true
    }
    taken += by
    if (minute > fromMin) mostTaken = Math.max(mostTaken, taken)
  }
  if (!begun) mostTaken = Math.max(mostTaken, taken)
  return room.capacity - mostTaken
}

/** The first moment from `fromMin` on at which `count` are free until `fromMin + durationMin` after it; null: never. */
export function earliestFree(room: Room, count: number, durationMin: number, fromMin: Minute): Minute | null {
  if (count > room.capacity) return null
  const moments = [
    fromMin,
    ...room.changes.filter(({ minute, by }) => by < 0 && minute > fromMin).map(({ minute }) => minute),
  ]
  return moments.find((minute) => leastFree(room, minute, minute + durationMin) >= count) ?? null
}

function insert(changes: { minute: Minute; by: number }[], change: { minute: Minute; by: number }): void {
  let at = changes.length
  // At one moment what is given back comes before what is taken.
  while (
    at > 0 &&
    (changes[at - 1]!.minute > change.minute ||
      (changes[at - 1]!.minute === change.minute && changes[at - 1]!.by > change.by))
  )
    at--
  changes.splice(at, 0, change)
}
