/**
 * A run's clay in every common draw, by the full drying model: under the covers that the plan sets down, with each look-in
 * that decides decided as it then finds the clay.
 */
import { boneDryDb, DRY_AIR_RH } from '#core/drying/isotherm.ts'
import { trajectory } from '#core/drying/fullModel.ts'
import { firmnessThresholdDb } from '#core/drying/clay.ts'
import { runStates } from '#core/drying/runStates.ts'
import type { AirOfSpot, CoverSpan, Draw, PartClass, PartState, Trajectory } from '#core/drying/types.ts'
import { moistureAt, moistureBandOf } from '#core/drying/windows.ts'
import type { Design, DesignStep } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import { commonDraws } from '../facts/commonDraws.ts'
import { builtClassOf, partClassesOf } from '../facts/partClasses.ts'
import { clayOf } from '../facts/pieces.ts'
import { feltSoFar, spansSoFar } from '../facts/soFar.ts'
import type { PlannedRun, RunTask } from '../plan.ts'
import type { Futures, Ground } from './ground.ts'
import { clayStepsOf, designOf, stageOf } from './ground.ts'

/** The full model's own accuracy: so far a moisture may lie beyond a limit and still be said to meet it. */
const TOLERANCE_DB = 0.001

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
    hasWindows: tasks.some(({ step }) => step?.band),
    oddsDryAt: (minute) => {
      const dry = paths.filter(({ spans, built }, d) => isDryAt(ware, draws[d]!, spans, built, minute))
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
    return { ...ware, starts: null, builtStarts: null, begins: { ...run.waits[0]!, fromMin: run.cutMin! } }
  }
  const spans = onBoards(spansSoFar(log), ware)
  const now = (part: PartClass) =>
    runStates({ part, spans, observations: feltSoFar(log, design), airOfSpot, draws, nowMin })
  const isBuilt = clayStepsOf(design).every(({ id }) => log.doneStepIds.includes(id))
  const { cover, spotId } = spans.at(-1)!
  return {
    ...ware,
    starts: ware.classes.map(now),
    builtStarts: isBuilt ? now(ware.built) : null,
    begins: { fromMin: Math.max(nowMin, log.cutMin ?? nowMin), cover, spotId },
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

function pathOf(ware: Ware, draw: Draw, d: number, tasks: readonly ClayTask[]): Path {
  const spans = spansIn(ware, draw, d, tasks)
  const steps = tasks.filter(({ step }) => step !== undefined)
  const lastMin = steps.at(-1)?.task.endMin ?? ware.begins.fromMin
  if (ware.builtStarts) return { spans, held: true, built: ware.builtStarts[d] }
  const ways = ware.classes.map((_, c) => wayOf(ware, draw, d, c, spans, lastMin))
  const held = steps.every(({ task, step }) => isHeld(ware, draw, ways, task, step!))
  const wettest = ways.reduce((most, next) => (next.meanDb.at(-1)! > most.meanDb.at(-1)! ? next : most))
  // The thickest spot is made when the piece is built: until then it has dried as its wettest part has.
  return { spans, held, built: { minute: wettest.end.minute, middle: wettest.end.middle } }
}

/** Covers as they are laid in this draw. A parked run stays parked until hands work on it again. */
function spansIn(ware: Ware, draw: Draw, d: number, tasks: readonly ClayTask[]): readonly CoverSpan[] {
  const spans: CoverSpan[] = [ware.begins]
  let parked = false
  for (const [index, { task, step }] of tasks.entries()) {
    const { after, parkWhen, endMin } = task
    if (step) parked = false
    if (parked) continue
    const last = spans.at(-1)!
    parked = parkWhen !== null && isFirm(ware, draw, d, spans, task, nextStep(tasks, index))
    if (parked) spans.push({ fromMin: endMin, cover: parkWhen!.cover, spotId: last.spotId })
    else if (after && endMin > last.fromMin) spans.push({ fromMin: endMin, ...after })
  }
  return onBoards(spans, ware)
}

const nextStep = (tasks: readonly ClayTask[], index: number): DesignStep | undefined =>
  tasks.slice(index + 1).find(({ step }) => step !== undefined)?.step

/** Whether all parts that the next step needs are as firm as the look-in asks, when it begins. */
function isFirm(
  ware: Ware,
  draw: Draw,
  d: number,
  spans: readonly CoverSpan[],
  { startMin, parkWhen }: RunTask,
  next: DesignStep | undefined,
): boolean {
  const limitDb = firmnessThresholdDb(parkWhen!.firmness, draw)
  return neededClasses(ware, next).every((c) => {
    const way = wayOf(ware, draw, d, c, onBoards(spans, ware), startMin)
    return way.meanDb.at(-1)! <= limitDb + TOLERANCE_DB
  })
}

/** Whether a step falls inside its band from beginning to end, in all the parts that it needs. */
function isHeld(
  ware: Ware,
  draw: Draw,
  ways: readonly Trajectory[],
  { startMin, endMin }: RunTask,
  step: DesignStep,
): boolean {
  if (!step.band) return true
  const { openAtDb, closeAtDb, rimCloseAtDb, maxDifferenceDb } = moistureBandOf(step.band, draw)
  const needed = neededClasses(ware, step).map((c) => ways[c]!)
  const inBand = needed.every(
    ({ minute, meanDb, rimDb }) =>
      moistureAt(minute, meanDb, startMin) <= openAtDb + TOLERANCE_DB &&
      moistureAt(minute, meanDb, endMin) >= closeAtDb - TOLERANCE_DB &&
      moistureAt(minute, rimDb, endMin) >= rimCloseAtDb - TOLERANCE_DB,
  )
  const apart = (at: Minute): number => {
    const means = needed.map(({ minute, meanDb }) => moistureAt(minute, meanDb, at))
    return Math.max(...means) - Math.min(...means)
  }
  return inBand && Math.max(apart(startMin), apart(endMin)) <= maxDifferenceDb + TOLERANCE_DB
}

function neededClasses({ design, classOfPart }: Ware, step: DesignStep | undefined): readonly number[] {
  const needed = design.parts.flatMap(({ id }, part) =>
    !step || step.partIds.length === 0 || step.partIds.includes(id) ? [classOfPart[part]!] : [],
  )
  return [...new Set(needed)]
}

function wayOf(
  { classes, starts, airOfSpot }: Ware,
  draw: Draw,
  d: number,
  c: number,
  spans: readonly CoverSpan[],
  toMin: Minute,
): Trajectory {
  const start = starts?.[c]?.[d]
  return trajectory({ part: classes[c]!, spans, airOfSpot, draw, toMin, ...(start ? { start } : {}) })
}

/**
 * Dry in the wettest cell of the thickest spot, as the air of the last day has it, but never by air damper than half: no
 * damp night makes ware dry.
 */
function isDryAt(
  ware: Ware,
  draw: Draw,
  spans: readonly CoverSpan[],
  built: PartState | undefined,
  minute: Minute,
): boolean {
  const fromMin = built?.minute ?? ware.begins.fromMin
  if (minute <= fromMin) return false
  const running = spans.findLast((span) => span.fromMin <= fromMin) ?? spans[0]!
  const later = spans.filter((span) => span.fromMin > fromMin)
  const { turned: _turned, ...waiting } = running
  const request = {
    part: ware.built,
    spans: [{ ...waiting, fromMin }, ...later],
    airOfSpot: ware.airOfSpot,
    draw,
    toMin: minute,
  }
  const way = trajectory({ ...request, ...(built ? { start: built } : {}) })
  const { spotId } = spans.findLast((span) => span.fromMin <= minute) ?? running
  const airAt = ware.airOfSpot(spotId, draw)
  const rhs = Array.from({ length: 24 }, (_, hour) => airAt(minute - hour * MIN_PER_HOUR).rh)
  const meanRh = rhs.reduce((sum, rh) => sum + rh, 0) / rhs.length
  return way.wettestDb.at(-1)! <= boneDryDb(draw.oswinA, draw.oswinB, Math.min(DRY_AIR_RH, meanRh)) + TOLERANCE_DB
}

/** Names the board of every spot that differs from the one the ware was cut onto. */
const onBoards = (
  spans: readonly CoverSpan[],
  { boardOf, built }: Pick<Ware, 'boardOf' | 'built'>,
): readonly CoverSpan[] =>
  spans.map((span) => {
    const board = boardOf(span.spotId)
    return board === built.board ? span : { ...span, board }
  })
