/**
 * A small plan made by hand, with nothing of the planner in it: two trays for an order from cut to packing, beside a run that
 * lies sealed and one that waits as bisque. It is Monday, eight o'clock. Tests spoil it.
 */
import { withCandling } from '#core/firing/candling.ts'
import { firingTimes } from '#core/firing/times.ts'
import type { FiringKind } from '#core/firing/types.ts'
import { fits } from '#core/loading/fits.ts'
import type { Load } from '#core/loading/types.ts'
import { firingLoadOf, loadItem } from '#core/planning/facts/pieces.ts'
import type { KilnTask, Plan, PlannedFiring, PlannedRun, PlanningCase, RunTask } from '#core/planning/plan.ts'
import { costNames } from '#core/planning/plan.ts'
import type { Costs } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { aDesign, aStep, traySteps } from './designBuilders.ts'
import { aLog, anEntry } from './entryBuilders.ts'
import { aMaker, anOrder, anOrderLine, aPlanningCase, aSpot, aStudio, at } from './studioBuilders.ts'

export const RUN = 'new:tray:1'
const COUNT = 2
const CANDLE_HOURS = 2

/** Joined from soft to firm: two hours each for most of the draws that `handPlan` was tried with. */
const steps = traySteps.map((step) =>
  step.id === 'join' ? aStep({ ...step, band: { from: 'soft', to: 'firm' } }) : step,
)
const tray = aDesign({ steps })

const wait = { cover: 'sealed', spotId: 'rack' } as const
const entries = aLog(
  anEntry('cut', at(-1, 12), { runId: 'sealed', designId: 'tray', count: 1, ...wait }),
  anEntry('cut', at(-20, 12), { runId: 'bisque', designId: 'tray', count: 3, ...wait }),
  anEntry('joined', at(-19, 12), { runId: 'bisque', count: 3, stepId: 'join', ...wait }),
  anEntry('loaded', at(-9, 12), {
    firingId: 'old',
    kilnId: 'round-kiln',
    firingKind: 'bisque',
    scheduleId: 'bisque-06',
    members: [{ runId: 'bisque', designId: 'tray', glazeId: null, count: 3 }],
  }),
  anEntry('unloaded', at(-7, 12), {
    firingId: 'old',
    sorted: [
      {
        runId: 'bisque',
        designId: 'tray',
        glazeId: null,
        count: 3,
        good: 3,
        second: 0,
        refire: 0,
        lost: 0,
        cause: null,
      },
    ],
  }),
)

/** Two weeks of a steady room, so that the days to come are well known. */
const airReadings = Array.from({ length: 24 * 14 }, (_, hour) => ({
  spotId: 'rack',
  minute: at(0, 8) - 60 * hour,
  tempC: 20,
  rh: 0.5,
}))

export const handCase: PlanningCase = aPlanningCase({
  entries,
  studio: aStudio({
    airReadings,
    spots: [aSpot({ air: { kind: 'log', word: 'normal' } })],
    makers: [aMaker(), aMaker({ id: 'ben', name: 'Ben', skills: ['slab'] })],
    designs: [tray],
    orders: [anOrder({ lines: [anOrderLine({ count: COUNT })] })],
  }),
})
const { studio } = handCase
const kiln = studio.kilns[0]!

const step = (stepId: string, startMin: Minute, rest: Partial<RunTask> = {}): RunTask => {
  const { setupMin, minPerPiece } = tray.steps.find(({ id }) => id === stepId)!
  return task(stepId, startMin, startMin + Math.ceil(setupMin + minPerPiece * COUNT), rest)
}
const lookIn = (number: number, startMin: Minute, rest: Partial<RunTask>): RunTask =>
  task(`look-in:${number}`, startMin, startMin + studio.rules.lookInMin, { kind: 'look-in', ...rest })
const task = (stepId: string, startMin: Minute, endMin: Minute, rest: Partial<RunTask>): RunTask => ({
  id: `${RUN}/${stepId}`,
  kind: 'step',
  runId: RUN,
  stepId,
  glazeId: null,
  makerId: 'mara',
  startMin,
  endMin,
  count: COUNT,
  window: null,
  after: null,
  parkWhen: null,
  pinned: false,
  ...rest,
})
const under = (cover: 'open' | 'loose' | 'tucked' | 'sealed') => ({ cover, spotId: 'rack' })

const clayTasks: readonly RunTask[] = [
  step('cut', at(0, 9), { after: under('open') }),
  lookIn(1, at(0, 21, 50), { after: under('tucked') }),
  lookIn(2, at(1, 7, 35), { after: under('open'), parkWhen: { firmness: 'leather hard', cover: 'tucked' } }),
  step('join', at(1, 9, 30), {
    after: under('sealed'),
    window: { openMin: at(1, 9), closeMin: at(1, 12), odds: 0.9, bindingPart: 'Base' },
  }),
  lookIn(3, at(2, 10, 15), { after: under('loose') }),
  lookIn(4, at(3, 10, 20), { after: under('open') }),
]
const DRY_DAY = 14

const glazed = { glazeId: 'white' }
const bisque = firing('bisque', null, DRY_DAY)
const glazeMin = nextMakingMin(bisque.firing.emptyMin)
const glaze = firing('glaze', 'white', dayOf(glazeMin) + 1)
const finishMin = nextMakingMin(glaze.firing.emptyMin)

const run: PlannedRun = {
  id: RUN,
  designId: 'tray',
  underWay: false,
  count: COUNT,
  allotments: [{ orderId: 'order', orderLineId: 'line', count: COUNT, glazeId: 'white' }],
  boards: [{ spotId: 'rack', boardCount: 1, fromMin: at(0, 9), toMin: bisque.firing.loadMin }],
  waits: clayTasks.flatMap(({ endMin, after }) => (after ? [{ fromMin: endMin, ...after }] : [])),
  cutMin: clayTasks[0]!.endMin,
  dryMin: bisque.firing.loadMin,
  windowOdds: 0.9,
}
const underWay = { underWay: true, designId: 'tray', allotments: [], dryMin: null, windowOdds: 1 }
const sealedRun: PlannedRun = {
  ...underWay,
  id: 'sealed',
  count: 1,
  boards: [{ spotId: 'rack', boardCount: 1, fromMin: at(0, 8), toMin: handCase.horizonMin }],
  waits: [{ fromMin: at(-1, 12), ...wait }],
  cutMin: at(-1, 12),
}
const bisqueRun: PlannedRun = {
  ...underWay,
  id: 'bisque',
  count: 3,
  boards: [],
  waits: [
    { fromMin: at(-20, 12), ...wait },
    { fromMin: at(-19, 12), ...wait },
  ],
  cutMin: at(-20, 12),
}
const packed = step('pack', finishMin + 9, glazed)

export const handPlan: Plan = {
  id: 'by hand',
  input: handCase.input,
  tasks: [...clayTasks, step('glaze', glazeMin, glazed), step('finish', finishMin, glazed), packed],
  kilnTasks: [...bisque.tasks, ...glaze.tasks],
  runs: [run, sealedRun, bisqueRun],
  firings: [bisque.firing, glaze.firing],
  promises: [
    {
      orderId: 'order',
      orderLineId: 'line',
      designId: 'tray',
      wanted: COUNT,
      onTime: COUNT,
      late: 0,
      readyMin: packed.endMin,
      odds: 0.9,
      lastSafeCutMin: null,
    },
  ],
  leftOut: [],
  offers: [],
  costs: Object.fromEntries(costNames.map((name) => [name, 0])) as Costs,
}

function dayOf(minute: Minute): number {
  return Math.floor((minute - at(0)) / MIN_PER_DAY)
}

/** Nine o'clock of the first weekday from then on. */
function nextMakingMin(minute: Minute): Minute {
  let day = dayOf(minute)
  while (at(day, 9) < minute || day % 7 > 4) day++
  return at(day, 9)
}

/** Loaded at two o'clock, lit at half past seven the next morning, opened and emptied when it may be. */
function firing(kind: FiringKind, glazeId: string | null, day: number): { firing: PlannedFiring; tasks: KilnTask[] } {
  const members = [{ runId: RUN, designId: 'tray', glazeId, count: COUNT }]
  const load = loadOf(kind)
  const loadMin = nextMakingMin(at(day)) + 5 * 60
  const startMin = at(dayOf(loadMin) + 1, 7, 30)
  const schedule = studio.firingSchedules.find((one) => one.kind === kind)!
  const candled = {
    segment: { rateCPerH: 60, targetC: 85, holdMin: CANDLE_HOURS * 60 },
    reason: 'thin-and-dry',
  } as const
  const held = kind === 'bisque' ? withCandling(schedule, candled) : schedule
  const outcome = firingTimes(held, kiln.firing, firingLoadOf(studio, kiln, load, members, kind))
  if (outcome.kind !== 'times') throw new RangeError('the kiln of the tests cannot be fired')
  const { durationMin, openMin, unloadMin } = outcome.times
  const watched = (minute: Minute) => (at(dayOf(minute), 7) > minute ? at(dayOf(minute), 7) : minute)
  const opened = watched(startMin + openMin)
  const unloaded = nextMakingMin(Math.max(startMin + unloadMin, opened + unloadMin - openMin))
  const planned: PlannedFiring = {
    id: kind,
    kilnId: kiln.id,
    kind,
    scheduleId: schedule.id!,
    underWay: false,
    members,
    candleHours: kind === 'bisque' ? CANDLE_HOURS : 0,
    loadMin,
    startMin,
    switchUpsMin: [],
    shutOffMin: startMin + durationMin,
    openMin: opened,
    unloadMin: unloaded,
    emptyMin: unloaded + kiln.unloadMin,
    energyKwh: 50,
    load,
    fill: 0.2,
  }
  const hands = (name: KilnTask['kind'], from: Minute, minutes: number): KilnTask => ({
    id: `${kind}/${name}`,
    kind: name,
    firingId: kind,
    makerId: 'mara',
    startMin: from,
    endMin: from + minutes,
  })
  return {
    firing: planned,
    tasks: [
      hands('load', loadMin, kiln.loadMin),
      hands('start', startMin, 5),
      hands('shut-off', planned.shutOffMin, 5),
      hands('open', opened, 5),
      hands('unload', unloaded, kiln.unloadMin),
    ],
  }
}

function loadOf(kind: FiringKind): Load {
  const items = Array.from({ length: COUNT }, (_, index) => loadItem(studio, tray, kind, RUN, index + 1, true))
  const answer = fits(kiln.space, items, kind, 'quick')
  if (answer.answer !== 'fits') throw new RangeError('two trays fit into the kiln of the tests')
  return answer.load
}
