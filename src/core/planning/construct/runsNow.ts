/** Where the clay of runs under way is now, by what the logbook tells of it. */
import { runStates } from '#core/drying/runStates.ts'
import type { PartState } from '#core/drying/types.ts'
import type { Minute } from '#core/time.ts'
import { feltSoFar, spansSoFar } from '../facts/soFar.ts'
import type { Job } from '../jobs.ts'
import type { Desk } from './desk.ts'
import { asCut, type ClayState, kept, type Ware } from './wares.ts'

/** Where the clay of a run under way is now: through its covers so far, brought to what was felt and weighed. */
export function stateNow(desk: Desk, job: Job, ware: Ware): ClayState {
  const { nowMin } = desk.given
  const history = historyOf(job, nowMin)
  if (!history) return asCut(ware, nowMin)
  return kept(desk.given.wares, `now ${job.id}`, () => {
    const byClass = ware.classes.map((part) =>
      runStates({ part, ...history, airOfSpot: ware.airOfSpot, draws: ware.draws, nowMin }),
    )
    return {
      key: `now ${job.id}`,
      minute: nowMin,
      states: ware.draws.map((_, d) => byClass.map((states) => states[d]!)),
    }
  })
}

/** The same for a piece whose last clay step is done: its thickest spot has a history of its own. By draw. */
export function builtNow(desk: Desk, job: Job, ware: Ware): readonly PartState[] | null {
  const { nowMin } = desk.given
  const history = historyOf(job, nowMin)
  if (!history) return null
  return kept(desk.given.wares, `built ${job.id}`, () =>
    runStates({ part: ware.built, ...history, airOfSpot: ware.airOfSpot, draws: ware.draws, nowMin }),
  )
}

function historyOf({ design, state: run }: Job, nowMin: Minute) {
  const spans = run ? spansSoFar(run, nowMin) : []
  return run && spans.length > 0 ? { spans, observations: feltSoFar(run, design) } : null
}
