/**
 * The makers' free time while a plan is being built. Booking takes time away; nothing is ever given back, since a
 * construction looks for a whole chain of slots first and books it afterwards.
 */
import type { HandWork, Maker } from '#core/studio/studio.ts'
import type { Interval, Minute } from '#core/time.ts'
import { withoutIntervals } from '#core/time.ts'

/** What a slot is for: hands on ware, a look-in of a few minutes, or minding a kiln. */
export type Presence = 'making' | 'look-in' | 'kiln watch'

/** A span of one maker's time; not yet booked. */
export type Slot = { readonly makerId: string; readonly startMin: Minute; readonly endMin: Minute }

type Page = { readonly maker: Maker; readonly free: Record<Presence, Interval[]> }

export type Diary = { readonly pages: readonly Page[] }

/**
 * Empty diaries from `fromMin` on.
 * @param away spans in which a maker is not there after all
 * @param leastSessionMin making hours shorter than this are not worth starting and are left out
 */
export function openDiary(
  makers: readonly Maker[],
  away: readonly (Interval & { readonly makerId: string })[],
  fromMin: Minute,
  leastSessionMin: number,
): Diary {
  return {
    pages: makers.map((maker) => {
      const gone = [
        { startMin: Number.NEGATIVE_INFINITY, endMin: fromMin },
        ...away.filter(({ makerId }) => makerId === maker.id),
      ]
      const worthStarting = maker.makingHours.filter(({ startMin, endMin }) => endMin - startMin >= leastSessionMin)
      return {
        maker,
        free: {
          making: withoutIntervals(worthStarting, gone),
          'look-in': withoutIntervals(maker.lookInHours, gone),
          'kiln watch': withoutIntervals(maker.kilnWatchHours, gone),
        },
      }
    }),
  }
}

/** A copy that can be booked without touching the original. */
export function copyOfDiary(diary: Diary): Diary {
  return {
    pages: diary.pages.map(({ maker, free }) => ({
      maker,
      free: { making: [...free.making], 'look-in': [...free['look-in']], 'kiln watch': [...free['kiln watch']] },
    })),
  }
}

/** Takes the slot out of its maker's free time, whatever it was free for. */
export function book(diary: Diary, slot: Slot): void {
  const page = diary.pages.find(({ maker }) => maker.id === slot.makerId)
  if (!page) throw new RangeError(`no diary for maker ${slot.makerId}`)
  for (const presence of ['making', 'look-in', 'kiln watch'] as const) cutOut(page.free[presence], slot)
}

/** Whether anybody at all may do this work. */
export const anybodyMay = (diary: Diary, work: HandWork): boolean =>
  diary.pages.some(({ maker }) => maker.skills.includes(work))

/**
 * The earliest slot of `durationMin` that starts in [fromMin, latestStartMin], over all makers who may do the work;
 * between equals the first maker of the list.
 * @param work null: anybody
 * @param makerId only this one, if named
 */
export function earliestSlot(
  diary: Diary,
  presence: Presence,
  work: HandWork | null,
  durationMin: number,
  fromMin: Minute,
  latestStartMin: Minute,
  makerId: string | null = null,
): Slot | null {
  let best: Slot | null = null
  for (const { maker, free } of diary.pages) {
    if (!isMeant(maker, work, makerId)) continue
    const list = free[presence]
    for (let i = firstEndingAfter(list, fromMin); i < list.length; i++) {
      const startMin = Math.max(list[i]!.startMin, fromMin)
      if (startMin > latestStartMin || (best && startMin >= best.startMin)) break
      if (startMin + durationMin > list[i]!.endMin) continue
      best = { makerId: maker.id, startMin, endMin: startMin + durationMin }
      break
    }
  }
  return best
}

/** The latest slot of `durationMin` that starts in [earliestStartMin, toMin - durationMin]. */
export function latestSlot(
  diary: Diary,
  presence: Presence,
  work: HandWork | null,
  durationMin: number,
  earliestStartMin: Minute,
  toMin: Minute,
): Slot | null {
  let best: Slot | null = null
  for (const { maker, free } of diary.pages) {
    if (!isMeant(maker, work, null)) continue
    const list = free[presence]
    for (let i = list.length - 1; i >= 0; i--) {
      const endMin = Math.min(list[i]!.endMin, toMin)
      const startMin = endMin - durationMin
      if (startMin < earliestStartMin || (best && startMin <= best.startMin)) {
        if (list[i]!.endMin <= earliestStartMin) break
        continue
      }
      if (startMin < list[i]!.startMin) continue
      best = { makerId: maker.id, startMin, endMin }
      break
    }
  }
  return best
}

/**
 * Starts worth trying for work of `durationMin` from `fromMin` to `toMin`: at the beginning of each free span, where it
 * would end the span, and halfway. Rising in time.
 */
export function candidateSlots(
  diary: Diary,
  presence: Presence,
  work: HandWork | null,
  durationMin: number,
  fromMin: Minute,
  toMin: Minute,
  limit: number,
): Slot[] {
  const slots: Slot[] = []
  for (const { maker, free } of diary.pages) {
    if (!isMeant(maker, work, null)) continue
    const list = free[presence]
    let taken = 0
    for (let i = firstEndingAfter(list, fromMin); i < list.length && taken < limit; i++) {
      const first = Math.max(list[i]!.startMin, fromMin)
      const last = Math.min(list[i]!.endMin, toMin) - durationMin
      if (last < first) {
        if (list[i]!.startMin >= toMin) break
        continue
      }
      const middle = Math.floor((first + last) / 2)
      for (const startMin of new Set(last - first >= 60 ? [first, middle, last] : [first])) {
        slots.push({ makerId: maker.id, startMin, endMin: startMin + durationMin })
        taken++
      }
    }
  }
  return slots.toSorted((a, b) => a.startMin - b.startMin || (a.makerId < b.makerId ? -1 : 1)).slice(0, limit)
}

/** Whether this very slot is free for its maker. */
export function isFree(diary: Diary, presence: Presence, slot: Slot): boolean {
  const page = diary.pages.find(({ maker }) => maker.id === slot.makerId)
  if (!page) return false
  const list = page.free[presence]
  const span = list[firstEndingAfter(list, slot.startMin)]
  return span !== undefined && span.startMin <= slot.startMin && span.endMin >= slot.endMin
}

/** Free minutes for a kind of work between two moments, all makers who may do it together. */
export function freeMinutes(diary: Diary, work: HandWork, fromMin: Minute, toMin: Minute): number {
  let total = 0
  for (const { maker, free } of diary.pages) {
    if (!maker.skills.includes(work)) continue
    for (const { startMin, endMin } of free.making) {
      total += Math.max(0, Math.min(endMin, toMin) - Math.max(startMin, fromMin))
    }
  }
  return total
}

/** The longest single free span for a kind of work between two moments. */
export function longestSpan(diary: Diary, work: HandWork, fromMin: Minute, toMin: Minute): number {
  let longest = 0
  for (const { maker, free } of diary.pages) {
    if (!maker.skills.includes(work)) continue
    for (const { startMin, endMin } of free.making) {
      longest = Math.max(longest, Math.min(endMin, toMin) - Math.max(startMin, fromMin))
    }
  }
  return longest
}

function isMeant(maker: Maker, work: HandWork | null, makerId: string | null): boolean {
  return (work === null || maker.skills.includes(work)) && (makerId === null || maker.id === makerId)
}

/** Index of the first interval of a rising, disjoint list that ends after `minute`. */
function firstEndingAfter(list: readonly Interval[], minute: Minute): number {
  let low = 0
  let high = list.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (list[middle]!.endMin > minute) high = middle
    else low = middle + 1
  }
  return low
}

function cutOut(list: Interval[], hole: Interval): void {
  for (let i = firstEndingAfter(list, hole.startMin); i < list.length && list[i]!.startMin < hole.endMin;) {
    const { startMin, endMin } = list[i]!
    const left: Interval[] = []
    if (startMin < hole.startMin) left.push({ startMin, endMin: hole.startMin })
    if (endMin > hole.endMin) left.push({ startMin: hole.endMin, endMin })
    list.splice(i, 1, ...left)
    i += left.length
  }
}
