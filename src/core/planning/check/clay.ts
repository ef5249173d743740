/** Clay does not wait: windows over a run's whole chain, and dryness before the fire. */
import { candlingFor } from '#core/firing/candling.ts'
import type { PlannedFiring, PlannedRun } from '../plan.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import { COMMON_DRAWS, DRY_ODDS, drawsFor, LEAST_ODDS_UNDER_WAY } from '../facts/commonDraws.ts'
import type { Check, Found, Futures, Ground } from './ground.ts'
import { designOf, membersOf, stageOf, stepOf } from './ground.ts'

/** Ware more likely wet than dry is not loaded, however long it is candled. Our choice. */
const LEAST_DRY_ODDS = 0.5

/**
 * In as many common draws as the studio's odds ask for (for clay that is cut already, in half of them), every step of the
 * chain falls inside its window: the same draws for all.
 */
export const windowsHoldTogether: Check = {
  name: 'windows hold over the whole chain of a run',
  breachesOf: (ground) =>
    withFutures(ground, withWindows(ground), (run, { held }): Found[] => {
      const { id, windowOdds } = run
      const count = held.filter(Boolean).length
      const isCut = stageOf(ground, run) !== 'begun'
      const needed = drawsFor(isCut ? LEAST_ODDS_UNDER_WAY : ground.studio.rules.windowOdds)
      // Whoever reckons a step's ends a little otherwise may count one draw otherwise.
      const saidTooMuch = windowOdds * COMMON_DRAWS > count + 1 + 1e-9
      return count < needed || saidTooMuch
        ? [{ run: id, held: count, needed, draws: COMMON_DRAWS, said: windowOdds }]
        : []
    }),
}

/** The span shown for a step holds the step, and is shown wherever the clay bounds it. */
export const windowsAreTold: Check = {
  name: 'a step stands inside the window that is told for it',
  breachesOf: (ground) =>
    ground.plan.tasks.flatMap((task): Found[] => {
      const { band } = stepOf(ground, task) ?? {}
      const isTold = task.window !== null && task.window.openMin <= task.startMin && task.endMin <= task.window.closeMin
      return band && !isTold ? [{ task: task.id, startMin: task.startMin, endMin: task.endMin }] : []
    }),
}

/** Dry at the thickest spot at the odds that count as dry; or doubtful, and candled as doubtful ware is. */
export const dryBeforeTheBisque: Check = {
  name: 'ware is dry before the bisque, or candled for its doubt',
  breachesOf: (ground) =>
    withFutures(ground, toBisque(ground), (run, futures) =>
      bisquesOf(ground, run).flatMap((firing): Found[] => {
        const odds = futures.oddsDryAt(firing.loadMin)
        const { thickestMm } = designOf(ground, run)
        const { segment } = candlingFor({ thickestMm, oddsDry: odds }, ground.studio.rules.altitudeM)
        const needed = segment.holdMin / MIN_PER_HOUR
        const isEnough = odds >= LEAST_DRY_ODDS && firing.candleHours >= needed - 1e-9
        return isEnough
          ? []
          : [{ run: run.id, firing: firing.id, odds, wanted: DRY_ODDS, candleHours: firing.candleHours, needed }]
      }),
    ),
}

const bisquesOf = ({ plan }: Ground, run: PlannedRun): readonly PlannedFiring[] =>
  plan.firings.filter((firing) => firing.kind === 'bisque' && !firing.underWay && membersOf(firing, run.id) > 0)

const toBisque = (ground: Ground): readonly PlannedRun[] =>
  ground.plan.runs.filter((run) => bisquesOf(ground, run).length > 0)

const withWindows = (ground: Ground): readonly PlannedRun[] =>
  ground.plan.runs.filter(({ id }) => ground.tasksOf(id).some((task) => stepOf(ground, task)?.band))

/** Only of the runs in question: to follow clay is most of a check's work. */
const withFutures = (
  ground: Ground,
  runs: readonly PlannedRun[],
  found: (run: PlannedRun, futures: Futures) => readonly Found[],
): Found[] =>
  runs.flatMap((run) => {
    const futures = ground.futuresOf(run)
    return futures ? found(run, futures) : []
  })
