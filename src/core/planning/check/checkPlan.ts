/** Everything that must never be in a plan, looked for by other eyes than those that made it. */
import { logStateOf } from '#core/logbook/fold.ts'
import { airOfSpots } from '../facts/spotAir.ts'
import type { Breach, Plan, PlanningCase, RunTask } from '../plan.ts'
import { boardsForAllThatWaits, boardsInAll, roomOnSpots } from './boards.ts'
import { dryBeforeTheBisque, windowsAreTold, windowsHoldTogether } from './clay.ts'
import {
  allotmentsAddUp,
  firingsAreTheLogbooks,
  membersAreOfTheirRuns,
  promisesAddUp,
  runsAreTheLogbooks,
} from './counts.ts'
import { coversAreThere, coversChangeByHand, driesSlowlyAtFirst, seamsEvenOut } from './covers.ts'
import { clayFutures } from './futures.ts'
import type { Check, Futures, Ground } from './ground.ts'
import {
  kilnWatchedWhileThere,
  lookInsWhileThere,
  nothingInThePast,
  oneThingAtATime,
  onlyByThoseWhoMay,
  pinsKept,
  withinMakingHours,
} from './hands.ts'
import {
  firingsTakeTheirTime,
  kilnsCanFireIt,
  oneLoadAtATime,
  oneScheduleSuitsAll,
  somebodyIsThere,
  suppliesBearIt,
  switchedUpInTime,
} from './kilns.ts'
import { heatSuitsTheWare, loadsStand } from './loads.ts'
import { nothingPromisedTwice, onTimeIsOnTime } from './promises.ts'
import { idsOnce, namesExist, wholeNumbers } from './sound.ts'
import {
  cutInOneGo,
  glazeIsDry,
  glazesStayTheirs,
  mouldsAreThere,
  stationByStation,
  stepsTakeTheirTime,
} from './steps.ts'
import { bisqueIsOnTheShelf, clayIsOnHand, glazeIsOnHand } from './stores.ts'

/** Without these a plan cannot be read; the others rely on them. */
const soundness: readonly Check[] = [wholeNumbers, idsOnce, namesExist]

/** All that must hold of a plan that can be read. */
const rules: readonly Check[] = [
  withinMakingHours,
  lookInsWhileThere,
  kilnWatchedWhileThere,
  oneThingAtATime,
  onlyByThoseWhoMay,
  nothingInThePast,
  pinsKept,
  stepsTakeTheirTime,
  stationByStation,
  glazesStayTheirs,
  glazeIsDry,
  cutInOneGo,
  mouldsAreThere,
  boardsForAllThatWaits,
  roomOnSpots,
  boardsInAll,
  coversAreThere,
  coversChangeByHand,
  seamsEvenOut,
  driesSlowlyAtFirst,
  windowsHoldTogether,
  windowsAreTold,
  dryBeforeTheBisque,
  oneLoadAtATime,
  suppliesBearIt,
  firingsTakeTheirTime,
  oneScheduleSuitsAll,
  kilnsCanFireIt,
  somebodyIsThere,
  switchedUpInTime,
  loadsStand,
  heatSuitsTheWare,
  clayIsOnHand,
  glazeIsOnHand,
  bisqueIsOnTheShelf,
  runsAreTheLogbooks,
  firingsAreTheLogbooks,
  membersAreOfTheirRuns,
  allotmentsAddUp,
  promisesAddUp,
  onTimeIsOnTime,
  nothingPromisedTwice,
]

export const checks: readonly Check[] = [...soundness, ...rules]

/**
 * All breaches of a plan, by check; none: it may be saved and shown. Reads the case afresh, logbook and clay included, and
 * shares nothing with what makes plans but types and facts (`planning/facts`). A plan with numbers that are none, or names
 * of nothing, is looked at no further.
 */
export function checkPlan(planningCase: PlanningCase, plan: Plan): Breach[] {
  const ground = groundOf(planningCase, plan)
  const found = (list: readonly Check[]): Breach[] =>
    list.flatMap(({ name, breachesOf }) => breachesOf(ground).map((params) => ({ check: name, params })))
  const unsound = found(soundness)
  return unsound.length > 0 ? unsound : found(rules)
}

function groundOf(planningCase: PlanningCase, plan: Plan): Ground {
  const { studio, entries, input } = planningCase
  const state = logStateOf(studio, entries)
  const tasks = new Map<string, RunTask[]>()
  for (const task of plan.tasks.toSorted((a, b) => a.endMin - b.endMin)) {
    tasks.set(task.runId, [...(tasks.get(task.runId) ?? []), task])
  }
  const ground: Omit<Ground, 'futuresOf'> = {
    planningCase,
    plan,
    studio,
    state,
    nowMin: input.nowMin,
    designs: byId(studio.designs),
    makers: byId(studio.makers),
    kilns: byId(studio.kilns),
    schedules: new Map(studio.firingSchedules.flatMap((schedule) => (schedule.id ? [[schedule.id, schedule]] : []))),
    runs: byId(plan.runs),
    firings: byId(plan.firings),
    logRuns: byId(state.runs),
    logFirings: byId(state.firings),
    tasksOf: (runId) => tasks.get(runId) ?? [],
  }
  const airOfSpot = airOfSpots(planningCase)
  const known = new Map<string, Futures | null>()
  const futuresOf: Ground['futuresOf'] = (run) => {
    if (!known.has(run.id)) known.set(run.id, clayFutures(ground, airOfSpot, run))
    return known.get(run.id)!
  }
  return { ...ground, futuresOf }
}

const byId = <Thing extends { readonly id: string }>(things: readonly Thing[]): ReadonlyMap<string, Thing> =>
  new Map(things.map((thing) => [thing.id, thing]))
