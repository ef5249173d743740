/**
 * Small studios for tests: every builder gives a sensible thing, and a test names only what matters to it. Ids default
 * to short words ("rack", "tray"), and the defaults fit together: `aStudio()` is whole as it stands.
 * Kilns are in `kilnBuilders.ts`, clay and designs in `designBuilders.ts`, logbook entries in `entryBuilders.ts`.
 * Times are minutes of a fixed week that begins on Monday 2 March 2026, in UTC.
 */
import type { PlanInput, PlanningCase } from '#core/planning/plan.ts'
import { handWorks } from '#core/studio/studio.ts'
import type {
  Glaze,
  Maker,
  Mould,
  Order,
  OrderLine,
  Pin,
  Spot,
  StockItem,
  Studio,
  StudioRulesOfHouse,
} from '#core/studio/studio.ts'
import type { Interval, Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { aClay, aDesign } from './designBuilders.ts'
import { aBisqueSchedule, aGlazeSchedule, aKiln, aSupply } from './kilnBuilders.ts'

/** Monday 2026-03-02T00:00Z. */
export const MONDAY_MIN: Minute = 29_540_160

/** Minute of `day` (0 = that Monday, may be any whole number) at `hour`:`minute`, UTC. */
export const at = (day: number, hour = 0, minute = 0): Minute => MONDAY_MIN + day * MIN_PER_DAY + hour * 60 + minute

/** The same hours on each of the `days` of `weeks` weeks from that Monday; Monday is 0. Hours may be broken: 9.5. */
export function hoursOn(days: readonly number[], fromHour: number, toHour: number, weeks = 8): Interval[] {
  return Array.from({ length: weeks }, (_, week) =>
    days.map((day) => ({ startMin: at(week * 7 + day, fromHour), endMin: at(week * 7 + day, toHour) })),
  ).flat()
}

export const weekdays = [0, 1, 2, 3, 4] as const
export const everyDay = [0, 1, 2, 3, 4, 5, 6] as const

/** Makes on weekdays from 9 to 15, can look in every day from 7:30 to 22, minds a kiln every day from 7 to 22:30. */
export function aMaker(given: Partial<Maker> = {}): Maker {
  return {
    id: 'mara',
    name: 'Mara',
    skills: handWorks,
    makingHours: hoursOn(weekdays, 9, 15),
    lookInHours: hoursOn(everyDay, 7.5, 22),
    kilnWatchHours: hoursOn(everyDay, 7, 22.5),
    ...given,
  }
}

export function aSpot(given: Partial<Spot> = {}): Spot {
  return {
    id: 'rack',
    name: 'Rack',
    boardCount: 24,
    board: 'sealed',
    airSpeedMS: 0.1,
    air: { kind: 'word', word: 'normal' },
    ...given,
  }
}

export function aGlaze(given: Partial<Glaze> = {}): Glaze {
  return {
    id: 'white',
    name: 'Plain white',
    coneLow: '5',
    coneHigh: '7',
    foodSafeTested: true,
    onHandL: null,
    ...given,
  }
}

export function aMould(given: Partial<Mould> = {}): Mould {
  return { id: 'hump', name: 'Hump mould', count: 4, ...given }
}

export function anOrderLine(given: Partial<OrderLine> = {}): OrderLine {
  return { id: 'line', designId: 'tray', glazeId: 'white', count: 4, ...given }
}

/** Four trays, to be packed by the end of the Monday four weeks on. */
export function anOrder(given: Partial<Order> = {}): Order {
  return {
    id: 'order',
    kind: 'customer',
    name: 'Four trays',
    packedByMin: at(29),
    weight: 1,
    oddsWanted: 0.9,
    lines: [anOrderLine()],
    ...given,
  }
}

export function aStockItem(given: Partial<StockItem> = {}): StockItem {
  return { id: 'stock', designId: 'tray', stage: 'finished', glazeId: 'white', count: 2, ...given }
}

export function aPin(given: Partial<Pin> = {}): Pin {
  return { id: 'pin', runId: 'run', stepId: 'join', startMin: at(1, 10), makerId: null, ...given }
}

export const usualRules: StudioRulesOfHouse = {
  leastSessionMin: 30,
  lookInMin: 5,
  windowOdds: 0.9,
  glazeDryHours: 12,
  mixBisqueAndGlaze: false,
  wantedFill: 0.7,
  pricePerKwh: 0.3,
  co2KgPerKwh: 0.35,
  altitudeM: 100,
}

/** One maker, one rack, one clay, one glaze, one round kiln, one tray to make, nothing ordered. */
export function aStudio(given: Partial<Studio> = {}): Studio {
  return {
    id: 'studio',
    name: 'Studio',
    rules: usualRules,
    wareBoardCount: 30,
    makers: [aMaker()],
    spots: [aSpot()],
    covers: ['open', 'cloth', 'loose', 'tucked', 'sealed'],
    clays: [aClay()],
    glazes: [aGlaze()],
    supplies: [aSupply()],
    kilns: [aKiln()],
    moulds: [],
    firingSchedules: [aBisqueSchedule(), aGlazeSchedule()],
    designs: [aDesign()],
    orders: [],
    stock: [],
    pins: [],
    airReadings: [],
    ...given,
  }
}

export function aPlanInput(given: Partial<PlanInput> = {}): PlanInput {
  return { logPosition: 0, nowMin: at(0, 8), basePlanId: null, seed: 1, effort: 0, ...given }
}

/** `aStudio` on that Monday at 8, with nothing logged, planned eight weeks ahead. */
export function aPlanningCase(given: Partial<PlanningCase> = {}): PlanningCase {
  return {
    input: aPlanInput(),
    studio: aStudio(),
    entries: [],
    holdUntilMin: at(2),
    horizonMin: at(56),
    dayOffsetMin: 0,
    basePlan: null,
    ...given,
  }
}
