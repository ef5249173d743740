/** Kilns: one load at a time, somebody there when it matters, and time enough to heat and to cool. */
import { withCandling } from '#core/firing/candling.ts'
import { bisqueFor, glazeFor } from '#core/firing/sharedSchedule.ts'
import { firingTimes, usualOpening } from '#core/firing/times.ts'
import type { FiringSchedule, FiringTimes, KilnFiring } from '#core/firing/types.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import { firingLoadOf } from '../facts/pieces.ts'
import type { KilnTask, PlannedFiring } from '../plan.ts'
import type { Check, Found, Ground } from './ground.ts'
import { overfull } from './ground.ts'

export const oneLoadAtATime: Check = {
  name: 'a kiln holds one load at a time',
  breachesOf: ({ plan, studio }) =>
    studio.kilns.flatMap(({ id }) => {
      const own = plan.firings.filter(({ kilnId }) => kilnId === id).toSorted((a, b) => a.loadMin - b.loadMin)
      return own.flatMap((firing, index): Found[] => {
        const before = own[index - 1]
        return before && firing.loadMin < before.emptyMin
          ? [{ kiln: id, firing: before.id, other: firing.id, minute: firing.loadMin }]
          : []
      })
    }),
}

export const suppliesBearIt: Check = {
  name: 'no more kilns run at once than their supply bears',
  breachesOf: ({ plan, studio, kilns }) =>
    studio.supplies.flatMap(({ id, kilnsAtOnce }): Found[] => {
      const running = plan.firings
        .filter(({ kilnId }) => kilns.get(kilnId)!.supplyId === id)
        .map(({ startMin, shutOffMin, underWay }) => ({
          fromMin: startMin,
          toMin: shutOffMin,
          count: 1,
          ours: !underWay,
        }))
      const full = overfull(running, kilnsAtOnce)
      return full ? [{ supply: id, minute: full.minute, count: full.count, there: kilnsAtOnce }] : []
    }),
}

export const firingsTakeTheirTime: Check = {
  name: 'firings take the time they take',
  breachesOf: (ground) =>
    ground.plan.firings.flatMap((firing): Found[] => {
      const kiln = ground.kilns.get(firing.kilnId)!
      const times = timesOf(ground, firing)
      // How long one takes that is under way by a schedule nobody knows any more, nobody knows.
      if (!times)
        return firing.underWay
          ? []
          : [{ firing: firing.id, what: 'cannot be fired', minute: firing.startMin, needed: 0 }]
      const soonest: readonly (readonly [string, Minute, Minute])[] = [
        ['start', firing.startMin, firing.underWay ? firing.startMin : firing.loadMin + kiln.loadMin],
        ['shut-off', firing.shutOffMin, firing.startMin + times.durationMin],
        ['open', firing.openMin, firing.startMin + times.openMin],
        ['unload', firing.unloadMin, soonestUnloadMin(firing, times, kiln.firing)],
        ['empty', firing.emptyMin, firing.unloadMin + kiln.unloadMin],
      ]
      // What is logged of a firing under way happened as it did.
      const opened = ground.logFirings.get(firing.id)?.openedMin ?? null
      return soonest
        .filter(([what, minute, needed]) => minute < needed && !(what === 'open' && opened === firing.openMin))
        .map(([what, minute, needed]) => ({ firing: firing.id, what, minute, needed }))
    }),
}

/** A lid cracked late finds the kiln cooler than the lid's limit; from there it cools open to what hands bear. */
function soonestUnloadMin({ startMin, openMin }: PlannedFiring, times: FiringTimes, kiln: KilnFiring): Minute {
  const usualOpenMin = startMin + times.openMin
  const lateH = Math.max(0, openMin - usualOpenMin) / MIN_PER_HOUR
  const closedTauH = kiln.coolsVented ? kiln.ventedTauH : kiln.coolingTauH
  const leftAtOpenK = (usualOpening.openBelowC - kiln.ambientC) * Math.exp(-lateH / closedTauH)
  const bearableK = usualOpening.unloadBelowC - kiln.ambientC
  const spareH = (times.unloadMin - times.openMin) / MIN_PER_HOUR
  const stillH =
    bearableK > 0 ? Math.min(spareH, Math.max(0, kiln.ventedTauH * Math.log(leftAtOpenK / bearableK))) : spareH
  // Minutes are whole: a minute of grace for the rounding of both ends.
  return Math.max(usualOpenMin, openMin) + Math.floor(stillH * MIN_PER_HOUR) - 1
}

/** Times with what really stands in the kiln, by the slowest that its ware asks; undefined: it cannot be fired. */
function timesOf(ground: Ground, firing: PlannedFiring): FiringTimes | undefined {
  const kiln = ground.kilns.get(firing.kilnId)!
  const shared = firing.underWay ? ground.schedules.get(firing.scheduleId) : sharedSchedule(ground, firing)
  if (!shared) return undefined
  const load = firingLoadOf(ground.studio, kiln, firing.load, firing.members, firing.kind)
  const outcome = firingTimes(candled(shared, firing.candleHours), kiln.firing, load)
  return outcome.kind === 'times' ? outcome.times : undefined
}

/** Candled at the schedule's own temperature, or where water is still far from boiling. Only its length matters here. */
const CANDLE = { rateCPerH: 60, targetC: 85 } as const

const candled = (schedule: FiringSchedule, hours: number): FiringSchedule =>
  hours > 0
    ? withCandling(schedule, { segment: { ...CANDLE, holdMin: hours * MIN_PER_HOUR }, reason: 'doubtful' })
    : schedule

/** One schedule for all members; undefined if they cannot share one. Their doubt is another check's. */
function sharedSchedule(
  { designs, schedules, studio }: Ground,
  { kind, members }: PlannedFiring,
): FiringSchedule | undefined {
  const asked = members.map(({ designId }) => {
    const { bisqueScheduleId, glazeScheduleId, thickestMm } = designs.get(designId)!
    return { schedule: schedules.get(kind === 'bisque' ? bisqueScheduleId : glazeScheduleId), thickestMm, oddsDry: 1 }
  })
  const known = asked.flatMap(({ schedule, ...ware }) => (schedule ? [{ ...ware, schedule }] : []))
  if (known.length < asked.length || known.length === 0) return undefined
  const shared =
    kind === 'bisque' ? bisqueFor(known, studio.rules.altitudeM) : glazeFor(known.map(({ schedule }) => schedule))
  return shared.kind === 'shared' ? shared.schedule : undefined
}

export const oneScheduleSuitsAll: Check = {
  name: 'one schedule suits all that is in a load',
  breachesOf: (ground) =>
    ground.plan.firings
      .filter(({ underWay }) => !underWay)
      .filter((firing) => {
        const own = firing.members.map(({ designId }) => {
          const { bisqueScheduleId, glazeScheduleId } = ground.designs.get(designId)!
          return firing.kind === 'bisque' ? bisqueScheduleId : glazeScheduleId
        })
        return !sharedSchedule(ground, firing) || !own.includes(firing.scheduleId)
      })
      .map(({ id, scheduleId }) => ({ firing: id, schedule: scheduleId })),
}

export const kilnsCanFireIt: Check = {
  name: 'a kiln fires only what it can',
  breachesOf: ({ plan, kilns, schedules }) =>
    plan.firings
      .filter(({ underWay }) => !underWay)
      .filter(({ kilnId, scheduleId, kind }) => {
        const kiln = kilns.get(kilnId)!
        const schedule = schedules.get(scheduleId)!
        const topC = Math.max(...schedule.segments.map(({ targetC }) => targetC))
        return !kiln.fires.includes(kind) || schedule.kind !== kind || topC > kiln.firing.maxTempC
      })
      .map(({ id, kilnId, scheduleId, kind }) => ({ firing: id, kiln: kilnId, schedule: scheduleId, kind })),
}

export const somebodyIsThere: Check = {
  name: 'somebody is there at every turn of a firing',
  breachesOf: (ground) => {
    const tasks = new Map<string, KilnTask[]>()
    for (const task of ground.plan.kilnTasks) tasks.set(task.firingId, [...(tasks.get(task.firingId) ?? []), task])
    return ground.plan.firings.flatMap((firing) => {
      const own = tasks.get(firing.id) ?? []
      const turns = turnsOf(ground, firing)
      const isAt = (task: KilnTask, { kind, startMin, endMin }: Turn) =>
        task.kind === kind && task.startMin === startMin && (endMin === null || task.endMin === endMin)
      return [
        ...turns
          .filter((turn) => turn.startMin >= ground.nowMin && !own.some((task) => isAt(task, turn)))
          .map(({ kind, startMin }) => ({ firing: firing.id, what: kind, minute: startMin })),
        ...own
          .filter((task) => !turns.some((turn) => isAt(task, turn)))
          .map(({ id, startMin }) => ({ firing: firing.id, what: id, minute: startMin })),
      ]
    })
  },
}

/** A moment at which hands are needed at a kiln; `endMin` where they are needed until then. */
type Turn = { readonly kind: KilnTask['kind']; readonly startMin: Minute; readonly endMin: Minute | null }

function turnsOf({ kilns, logFirings }: Ground, firing: PlannedFiring): readonly Turn[] {
  const { loadMin, startMin, switchUpsMin, shutOffMin, openMin, unloadMin, emptyMin, underWay } = firing
  const log = underWay ? logFirings.get(firing.id) : undefined
  const at = (kind: KilnTask['kind'], minute: Minute, endMin: Minute | null = null): Turn => ({
    kind,
    startMin: minute,
    endMin,
  })
  return [
    ...(underWay ? [] : [at('load', loadMin, loadMin + kilns.get(firing.kilnId)!.loadMin)]),
    ...((log?.firedMin ?? null) === null ? [at('start', startMin)] : []),
    ...switchUpsMin.map((minute) => at('switch-up', minute)),
    at('shut-off', shutOffMin),
    ...((log?.openedMin ?? null) === null ? [at('open', openMin)] : []),
    at('unload', unloadMin, emptyMin),
  ]
}

export const switchedUpInTime: Check = {
  name: 'a manual kiln is turned up when it has to be',
  breachesOf: (ground) =>
    ground.plan.firings.flatMap((firing): Found[] => {
      const kiln = ground.kilns.get(firing.kilnId)!
      const needed = kiln.firing.switchUpsMin.map((at) => firing.startMin + at).filter((at) => at < firing.shutOffMin)
      const planned = firing.switchUpsMin
      return needed.join() === planned.join()
        ? []
        : [{ firing: firing.id, needed: needed.join(' '), planned: planned.join(' ') }]
    }),
}
