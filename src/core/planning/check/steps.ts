/** The way of a piece: every station in its order, each with the time it takes. */
import type { Minute } from '#core/time.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import type { PlannedRun } from '../plan.ts'
import type { Check, Found, Ground, Taken } from './ground.ts'
import { clayStepsOf, designOf, isFromShelf, overfull, stageOf, stepOf } from './ground.ts'
import { comeBy, countOf, leftBy, type Station, stationsOf } from './stations.ts'

export const stepsTakeTheirTime: Check = {
  name: 'steps take the time they take',
  breachesOf: (ground) =>
    ground.plan.tasks.flatMap((task) => {
      const step = task.kind === 'step' ? stepOf(ground, task) : undefined
      const neededMin = step ? Math.ceil(step.setupMin + step.minPerPiece * task.count) : ground.studio.rules.lookInMin
      const plannedMin = task.endMin - task.startMin
      return plannedMin === neededMin ? [] : [{ task: task.id, plannedMin, neededMin }]
    }),
}

/** No piece comes to a station before it has left the one before it, and none skips one. */
export const stationByStation: Check = {
  name: 'pieces pass from step to step, and skip none',
  breachesOf: (ground) =>
    ground.plan.runs.flatMap((run) => {
      const stations = stationsOf(ground, run)
      return stations.flatMap((station, index) => tooSoon(run, station, stations[index - 1]))
    }),
}

function tooSoon(run: PlannedRun, station: Station, before: Station | undefined): Found[] {
  const again = station.isPast && station.visits.length > 0
  if (again) return [{ run: run.id, step: station.name, count: countOf(station.visits), there: 0 }]
  const thereBy = (minute: Minute) => (!before || before.isPast ? run.count : leftBy(before, minute))
  return station.visits.flatMap(({ startMin }) => {
    const [count, there] = [comeBy(station, startMin), thereBy(startMin)]
    return count > there ? [{ run: run.id, step: station.name, count, there, minute: startMin }] : []
  })
}

export const glazesStayTheirs: Check = {
  name: 'a piece is fired and finished with the glaze it was given',
  breachesOf: (ground) =>
    ground.plan.runs.flatMap((run) => {
      const stations = stationsOf(ground, run)
      const glazing = stations.filter(({ kind }) => kind === 'glazing')
      if (glazing.length === 0) return []
      const log = ground.logRuns.get(run.id)
      const given = (glazeId: string | null) =>
        glazing.at(-1)!.isPast
          ? (log?.glazeId ?? null) === glazeId
            ? run.count
            : 0
          : countOf(glazing.at(-1)!.visits.filter((visit) => visit.glazeId === glazeId))
      const later = stations.filter(({ kind }) => kind === 'glaze' || kind === 'finishing')
      return later.flatMap(({ name, visits }) =>
        [...new Set(visits.map(({ glazeId }) => glazeId))].flatMap((glazeId): Found[] => {
          const count = countOf(visits.filter((visit) => visit.glazeId === glazeId))
          const there = given(glazeId)
          return count > there ? [{ run: run.id, step: name, glaze: glazeId ?? '', count, there }] : []
        }),
      )
    }),
}

export const glazeIsDry: Check = {
  name: 'glaze is dry before its firing',
  breachesOf: (ground) =>
    ground.plan.runs.flatMap((run) => {
      const stations = stationsOf(ground, run)
      const glazing = stations.filter(({ kind }) => kind === 'glazing').at(-1)
      const dryingMin = ground.studio.rules.glazeDryHours * MIN_PER_HOUR
      const glazedMin = ground.logRuns.get(run.id)?.glazedMin ?? Number.NEGATIVE_INFINITY
      const firing = stations.find(({ kind }) => kind === 'glaze')!
      const planned = firing.visits.filter(({ by }) => !ground.firings.get(by)!.underWay)
      return planned.flatMap(({ startMin, by }): Found[] => {
        if (!glazing) return []
        const count = comeBy(firing, startMin)
        const there = glazing.isPast
          ? glazedMin + dryingMin <= startMin
            ? run.count
            : 0
          : leftBy(glazing, startMin - dryingMin)
        return count > there ? [{ run: run.id, firing: by, count, there }] : []
      })
    }),
}

/** A run is what is cut together: by one task, whose end is when its clay begins to dry. */
export const cutInOneGo: Check = {
  name: 'a run is cut in one go, and is no larger than its design allows',
  breachesOf: (ground) =>
    ground.plan.runs.flatMap((run): Found[] => {
      if (stageOf(ground, run) !== 'begun' || isFromShelf(run)) return []
      const design = designOf(ground, run)
      const first = clayStepsOf(design)[0]
      const cuts = ground.tasksOf(run.id).filter(({ kind, stepId }) => kind === 'step' && stepId === first?.id)
      if (run.cutMin === null && cuts.length === 0) return []
      const [cut] = cuts
      const fits = cuts.length === 1 && first?.kind === 'cut' && cut?.count === run.count && cut.endMin === run.cutMin
      const most = Math.max(design.mostPerRun, ground.logRuns.get(run.id)?.count ?? 0)
      return fits && run.count <= most ? [] : [{ run: run.id, tasks: cuts.length, count: run.count, most }]
    }),
}

/** As many moulds as pieces, from the start of draping to the end of releasing. */
export const mouldsAreThere: Check = {
  name: 'there are moulds enough',
  breachesOf: (ground) =>
    ground.studio.moulds.flatMap((mould): Found[] => {
      const full = overfull(
        ground.plan.runs.flatMap((run) => mouldsTaken(ground, run, mould.id)),
        mould.count,
      )
      return full ? [{ mould: mould.id, minute: full.minute, count: full.count, there: mould.count }] : []
    }),
}

function mouldsTaken(ground: Ground, run: PlannedRun, mouldId: string): Taken[] {
  const steps = clayStepsOf(designOf(ground, run))
  const stations = stationsOf(ground, run)
  const stationOf = (stepId: string | undefined) => stations.find(({ name }) => name === stepId)
  return steps.flatMap((step, index) => {
    if (step.kind !== 'drape' || step.mouldId !== mouldId) return []
    const later = steps.slice(index + 1)
    const freeing = stationOf((later.find(({ kind }) => kind === 'release') ?? later[0])?.id)
    const draping = stationOf(step.id)!
    if (freeing?.isPast) return []
    const onIt = draping.isPast ? [{ startMin: ground.nowMin, count: run.count }] : draping.visits
    const ends = freeing ? freeing.visits.map(({ endMin }) => endMin) : draping.visits.map(({ endMin }) => endMin)
    const toMin = ends.length > 0 ? Math.max(...ends) : ground.planningCase.horizonMin
    return onIt.map(({ startMin, count }) => ({ fromMin: startMin, toMin, count, ours: !draping.isPast }))
  })
}
