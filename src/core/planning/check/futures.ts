/**
 * A run's clay in every common draw, by the full drying model: under the covers that the plan sets down, with each look-in
 * that decides decided as it then finds the clay.
 */
import { trajectory } from '#core/drying/fullModel.ts'
import { firmnessThresholdDb } from '#core/drying/clay.ts'
import { runStates } from '#core/drying/runStates.ts'
import type { AirOfSpot, CoverSpan, Draw, Firmness, PartClass, PartState, Trajectory } from '#core/drying/types.ts'
import { moistureBandOf } from '#core/drying/windows.ts'
import type { Design, DesignStep } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { commonDraws } from '../facts/commonDraws.ts'
import { builtClassOf, partClassesOf } from '../facts/partClasses.ts'
import { clayOf } from '../facts/pieces.ts'
import { feltSoFar, spansSoFar } from '../facts/soFar.ts'
import type { PlannedRun, RunTask } from '../plan.ts'
import type { Futures, Ground } from './ground.ts'
import { clayStepsOf, designOf, stageOf } from './ground.ts'

/** The full model's own accuracy: so far a moisture may lie beyond a limit and still be said to meet it. */
const TOLERANCE_DB = 0.001
/** Longest step where only the day of dryness is wanted. */
const DRYING_STEP_MIN = 60

/** Null for a run that is not clay: never cut, or fired. */
export function clayFutures(ground: Omit<Ground, 'futuresOf'>, airOfSpot: AirOfSpot, run: PlannedRun): Futures | null {
  const clay = clayOf(ground.studio, designOf(ground, run))
  if (!clay || run.cutMin === null || run.waits.length === 0) return null
  if (!['begun', 'clay', 'drying'].includes(stageOf(ground, run))) return null
  const draws = commonDraws(clay, ground.planningCase.input.seed)
  const ware = wareOf(ground, airOfSpot, run, draws)
  const tasks = clayTasks(ground, run)
  const paths = draws.map((draw, d) => pathOf(ware, draw, d, tasks))
  return {
    held: paths.map(({ held }) => held),
    oddsDryAt: (minute) => {
      const dry = paths.filter((path, d) => isDryAt(ware, draws[d]!, path, minute))
      return dry.length / draws.length
    },
  }
}

/** A run's clay as it is when the plan begins (`starts` by class and draw; none: as cut) and how its parts dry. */
type Ware = {
  readonly design: Design
  readonly airOfSpot: AirOfSpot
  readonly boardOf: (spotId: string) => PartClass['board']
  readonly classes: readonly PartClass[]
  /** [part of the design] -> class */
  readonly classOfPart: readonly number[]
  readonly built: PartClass
  readonly starts: readonly (readonly PartState[])[] | null
  /** If all is built: the piece as it is now, by draw. */
  readonly builtStarts: readonly PartState[] | null
  readonly begins: CoverSpan
}

function wareOf(
  ground: Omit<Ground, 'futuresOf'>,
  airOfSpot: AirOfSpot,
  run: PlannedRun,
  draws: readonly Draw[],
): Ware {
  const { studio, nowMin } = ground
  const design = designOf(ground, run)
  const boardOf = (spotId: string) => studio.spots.find(({ id }) => id === spotId)?.board ?? 'sealed'
  const board = boardOf(run.waits[0]!.spotId)
  const parts = partClassesOf(design, board)
  const names = parts.map((part) => JSON.stringify(part))
  const distinct = [...new Set(names)]
  const ware = {
    design,
    airOfSpot,
    boardOf,
    classes: distinct.map((name) => parts[names.indexOf(name)]!),
    classOfPart: names.map((name) => distinct.indexOf(name)),
    built: builtClassOf(design, board),
  }
  const log = ground.logRuns.get(run.id)
  if (!log || log.stage === 'begun' || log.waits.length === 0) {
    const { cover, spotId } = run.waits[0]!
    return { ...ware, starts: null, builtStarts: null, begins: { fromMin: run.cutMin!, cover, spotId } }
  }
  const spans = spansSoFar(log, nowMin).map((span) => onBoard(span, ware))
  const now = (part: PartClass) =>
    runStates({ part, spans, observations: feltSoFar(log, design), airOfSpot, draws, nowMin })
  const isBuilt = clayStepsOf(design).every(({ id }) => log.doneStepIds.includes(id))
  const { turned: _turned, ...lies } = spans.at(-1)!
  return {
    ...ware,
    starts: ware.classes.map(now),
    builtStarts: isBuilt ? now(ware.built) : null,
    begins: { ...lies, fromMin: Math.max(nowMin, log.cutMin ?? nowMin) },
  }
}

type ClayTask = { readonly task: RunTask; readonly step: DesignStep | undefined }

/** The run's tasks from its cut to its drying, by their end. */
function clayTasks(ground: Omit<Ground, 'futuresOf'>, run: PlannedRun): readonly ClayTask[] {
  const steps = clayStepsOf(designOf(ground, run))
  return ground.tasksOf(run.id).flatMap((task) => {
    const step = steps.find(({ id }) => id === task.stepId)
    return step || task.kind === 'look-in' ? [{ task, step }] : []
  })
}

type Path = { readonly spans: readonly CoverSpan[]; readonly held: boolean; readonly built: PartState | undefined }

/** A run's clay in one draw as time goes on: where each class of part has come to, and how it lies. */
type Lying = { readonly draw: Draw; readonly states: (PartState | undefined)[]; readonly spans: CoverSpan[] }

/**
 * Walks through the tasks with the clay: what a step finds, what a look-in decides, under what the run lies from then on.
 * A parked run stays parked until hands work on it again.
 */
function pathOf(ware: Ware, draw: Draw, d: number, tasks: readonly ClayTask[]): Path {
  const lying: Lying = { draw, states: ware.classes.map((_, c) => ware.starts?.[c]?.[d]), spans: [ware.begins] }
  let held = true
  let parked = false
  for (const [index, { task, step }] of tasks.entries()) {
    if (step) {
      held = isHeld(ware, lying, task, step) && held
      parked = false
    }
    if (parked) continue
    const { after, parkWhen, endMin } = task
    const { fromMin, spotId } = lying.spans.at(-1)!
    parked = parkWhen !== null && isFirm(ware, lying, parkWhen, step ? endMin : task.startMin, nextStep(tasks, index))
    if (parked) lay(ware, lying, { fromMin: endMin, cover: parkWhen!.cover, spotId })
    else if (after && endMin > fromMin) lay(ware, lying, { fromMin: endMin, ...after })
  }
  return { spans: lying.spans, held, built: ware.builtStarts?.[d] ?? builtOf(ware, lying, tasks) }
}

/** The thickest spot is made when the piece is built: until then it has dried as its wettest part has. */
function builtOf(ware: Ware, lying: Lying, tasks: readonly ClayTask[]): PartState | undefined {
  const builtMin = tasks.findLast(({ step }) => step !== undefined)?.task.endMin ?? ware.begins.fromMin
  const ways = ware.classes.map((_, c) => followed(ware, lying, c, builtMin))
  const wettest = ways.reduce((most, next) => (meanOf(next) > meanOf(most) ? next : most))
  return { minute: wettest.end.minute, middle: wettest.end.middle }
}

const nextStep = (tasks: readonly ClayTask[], index: number): DesignStep | undefined =>
  tasks.slice(index + 1).find(({ step }) => step !== undefined)?.step

/** Whether all parts that the next step needs are as firm as is asked: when a look-in begins, or when a step is done. */
function isFirm(
  ware: Ware,
  lying: Lying,
  { firmness }: { readonly firmness: Firmness },
  minute: Minute,
  next: DesignStep | undefined,
): boolean {
  const limitDb = firmnessThresholdDb(firmness, lying.draw)
  return neededClasses(ware, next).every((c) => meanOf(followed(ware, lying, c, minute)) <= limitDb)
}

/** Whether a step falls inside its band from beginning to end, in all the parts that it needs. */
function isHeld(ware: Ware, lying: Lying, { startMin, endMin }: RunTask, step: DesignStep): boolean {
  if (!step.band) return true
  const { openAtDb, closeAtDb, rimCloseAtDb, maxDifferenceDb } = moistureBandOf(step.band, lying.draw)
  const needed = neededClasses(ware, step)
  const begun = needed.map((c) => meanOf(followed(ware, lying, c, startMin)))
  const ended = needed.map((c) => followed(ware, lying, c, endMin))
  const apart = (means: readonly number[]) => Math.max(...means) - Math.min(...means)
  return (
    begun.every((meanDb) => meanDb <= openAtDb + TOLERANCE_DB) &&
    ended.every((way) => meanOf(way) >= closeAtDb - TOLERANCE_DB) &&
    ended.every(({ rimDb }) => rimDb.at(-1)! >= rimCloseAtDb - TOLERANCE_DB) &&
    Math.max(apart(begun), apart(ended.map(meanOf))) <= maxDifferenceDb + TOLERANCE_DB
  )
}

function neededClasses({ design, classOfPart }: Ware, step: DesignStep | undefined): readonly number[] {
  const needed = design.parts.flatMap(({ id }, part) =>
    !step || step.partIds.length === 0 || step.partIds.includes(id) ? [classOfPart[part]!] : [],
  )
  return [...new Set(needed)]
}

/** Follows a class of part on to a minute, and keeps it there. */
function followed({ classes, airOfSpot }: Ware, { draw, states, spans }: Lying, c: number, toMin: Minute): Trajectory {
  const start = states[c]
  const way = trajectory({ part: classes[c]!, spans, airOfSpot, draw, toMin, ...(start ? { start } : {}) })
  states[c] = way.end
  return way
}

const meanOf = ({ meanDb }: Trajectory): number => meanDb.at(-1)!

/**
 * Whether it has been bone dry by then, in the wettest cell of the thickest spot. The word means the same water in any air
 * (in balance with air of half humidity), so that no damp night makes ware dry; what dry ware takes up again in damp air is
 * little, and the least candling drives it out.
 */
function isDryAt(ware: Ware, draw: Draw, { spans, built }: Path, minute: Minute): boolean {
  const fromMin = built?.minute ?? ware.begins.fromMin
  if (minute <= fromMin) return false
  const { turned: _turned, ...running } = spans.findLast((span) => span.fromMin <= fromMin) ?? spans[0]!
  const later = spans.filter((span) => span.fromMin > fromMin)
  const dryDb = firmnessThresholdDb('bone dry', draw) + TOLERANCE_DB
  const drying = trajectory({
    part: ware.built,
    spans: [{ ...running, fromMin }, ...later],
    airOfSpot: ware.airOfSpot,
    draw,
    toMin: minute,
    untilDb: dryDb,
    stepMin: DRYING_STEP_MIN,
    ...(built ? { start: built } : {}),
  })
  return Math.min(...drying.wettestDb) <= dryDb
}

const lay = (ware: Ware, { spans }: Lying, span: CoverSpan): void => void spans.push(onBoard(span, ware))

/** Names the board of the spot if it differs from the one the ware was cut onto. */
function onBoard(span: CoverSpan, { boardOf, built }: Pick<Ware, 'boardOf' | 'built'>): CoverSpan {
  const board = boardOf(span.spotId)
  return board === built.board ? span : { ...span, board }
}
