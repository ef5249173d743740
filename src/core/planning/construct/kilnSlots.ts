/** When a kiln can be loaded, lit, shut off, opened and emptied, with somebody there each time. */
import type { FiringTimes } from '#core/firing/types.ts'
import type { Kiln } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import type { KilnTask } from '../plan.ts'
import { candidateSlots, type Diary, earliestSlot, type Slot } from './diary.ts'
import { leastFree, type Room } from './room.ts'

/** Minutes that somebody stands at the kiln to light it, turn it up, see it off or crack its lid. Common practice, no source. */
export const AT_KILN_MIN = 5
/** How long a loaded kiln may wait to be lit, and lights are tried this far apart. Our choice. */
const LONGEST_WAIT_TO_LIGHT_MIN = 24 * 60
const LIGHTING_STEP_MIN = 15
/** Hands that could load are looked at this many at a time. */
const SLOTS_LOOKED_AT = 120

/** A firing's moments and hands, not yet booked. */
export type KilnSlot = {
  readonly kilnId: string
  readonly loadMin: Minute
  readonly startMin: Minute
  readonly switchUpsMin: readonly Minute[]
  readonly shutOffMin: Minute
  readonly openMin: Minute
  readonly unloadMin: Minute
  readonly emptyMin: Minute
  readonly hands: readonly { readonly kind: KilnTask['kind']; readonly slot: Slot }[]
}

export type KilnBook = { readonly kilns: ReadonlyMap<string, Room>; readonly supplies: ReadonlyMap<string, Room> }

/** Moments at which loading could begin with the kiln free, rising, for `firingSlot` to complete. */
export function loadingSlots(
  diary: Diary,
  book: KilnBook,
  kiln: Kiln,
  fromMin: Minute,
  latestStartMin: Minute,
): Slot[] {
  const room = book.kilns.get(kiln.id)!
  const slots = candidateSlots(
    diary,
    'making',
    'kiln',
    kiln.loadMin,
    fromMin,
    latestStartMin + kiln.loadMin,
    SLOTS_LOOKED_AT,
  )
  return slots.filter(({ startMin, endMin }) => leastFree(room, startMin, endMin) > 0)
}

/**
 * The soonest firing that begins with this loading: the kiln is free, its supply carries it, and there is somebody to
 * light it, at each switch-up, at the shut-off, to open and to unload. Null: none before `horizonMin`.
 */
export function firingSlot(
  diary: Diary,
  book: KilnBook,
  kiln: Kiln,
  times: FiringTimes,
  loading: Slot,
  horizonMin: Minute,
): KilnSlot | null {
  const kilnRoom = book.kilns.get(kiln.id)!
  const supply = book.supplies.get(kiln.supplyId)!
  if (leastFree(kilnRoom, loading.startMin, loading.endMin) < 1) return null
  const lastLightMin = loading.endMin + LONGEST_WAIT_TO_LIGHT_MIN
  for (let from = loading.endMin; from <= lastLightMin;) {
    const light = earliestSlot(diary, 'kiln watch', 'kiln', AT_KILN_MIN, from, lastLightMin)
    if (!light) return null
    from = light.startMin + LIGHTING_STEP_MIN
    const startMin = light.startMin
    const shutOffMin = startMin + times.durationMin
    if (leastFree(supply, startMin, shutOffMin) < 1) continue
    const moments = [...times.switchUpsMin.map((at) => startMin + at), shutOffMin]
    const there = moments.map((at) => earliestSlot(diary, 'kiln watch', 'kiln', AT_KILN_MIN, at, at))
    if (there.some((slot) => slot === null)) continue
    const open = earliestSlot(diary, 'kiln watch', 'kiln', AT_KILN_MIN, startMin + times.openMin, horizonMin)
    if (!open) return null
    const coolMin = Math.max(startMin + times.unloadMin, open.startMin + (times.unloadMin - times.openMin))
    const unload = earliestSlot(diary, 'making', 'kiln', kiln.unloadMin, coolMin, horizonMin)
    if (!unload || unload.endMin > horizonMin) return null
    // Later lights only end later: if the kiln is taken before this one is emptied, no other light helps.
    if (leastFree(kilnRoom, loading.startMin, unload.endMin) < 1) return null
    const kinds: KilnTask['kind'][] = [...times.switchUpsMin.map(() => 'switch-up' as const), 'shut-off']
    return {
      kilnId: kiln.id,
      loadMin: loading.startMin,
      startMin,
      switchUpsMin: moments.slice(0, -1),
      shutOffMin,
      openMin: open.startMin,
      unloadMin: unload.startMin,
      emptyMin: unload.endMin,
      hands: [
        { kind: 'load', slot: loading },
        { kind: 'start', slot: light },
        ...there.map((slot, i) => ({ kind: kinds[i]!, slot: slot! })),
        { kind: 'open', slot: open },
        { kind: 'unload', slot: unload },
      ],
    }
  }
  return null
}
