/** How long firings keep a kiln. */
import { firingTimes } from '#core/firing/times.ts'
import type { FiringKind } from '#core/firing/types.ts'
import type { Design } from '#core/studio/studio.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { fullLoadOf } from '../facts/pieces.ts'
import type { Given } from './desk.ts'
import { scheduleOf } from './lots.ts'

/** From lighting until bare hands can unload, by design and kind, in the slowest kiln that fires it. */
export function busyTimes({ studio }: Given): ReadonlyMap<string, Readonly<Record<FiringKind, number>>> {
  const known = new Map<string, number>()
  const busy = (design: Design, kind: FiringKind): number => {
    const schedule = scheduleOf(studio, design, kind)
    if (!schedule) return 2 * MIN_PER_DAY
    const key = `${schedule.id} ${kind}`
    const longest =
      known.get(key) ??
      Math.max(
        0,
        ...studio.kilns
          .filter(({ fires }) => fires.includes(kind))
          .map((kiln) => {
            const outcome = firingTimes(schedule, kiln.firing, fullLoadOf(kiln, kind))
            return outcome.kind === 'times' ? outcome.times.unloadMin : 0
          }),
      )
    known.set(key, longest)
    return longest
  }
  return new Map(
    studio.designs.map((design) => [design.id, { bisque: busy(design, 'bisque'), glaze: busy(design, 'glaze') }]),
  )
}
