/** Studios of any kind by seed, for long runs of tests. Odd, but whole: every one is a studio file that can be read. */
import { dayAfter } from '#app/calendar/days.ts'
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import { instantOf, minuteOf, startOfDay } from '#app/studio/wireTime.ts'
import type { HoursRecord, MakerRecord } from '#contract/maker.ts'
import type { OrderRecord, StockRecord } from '#contract/order.ts'
import type { AirReadingRecord, SpotRecord } from '#contract/spot.ts'
import { STUDIO_FORMAT, STUDIO_VERSION } from '#contract/studioFields.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { usualSchedules } from '#core/firing/usualSchedules.ts'
import type { PlanningCase } from '#core/planning/plan.ts'
import { seededRng } from '#core/rng.ts'
import type { Rng } from '#core/rng.ts'
import { handWorks } from '#core/studio/studio.ts'
import { usualRules } from './studioBuilders.ts'
import { dice } from './dice.ts'
import type { Dice } from './dice.ts'
import { randomDesigns } from './randomDesigns.ts'
import { randomKilns } from './randomKilns.ts'
import { randomLogbook } from './randomLogbook.ts'

export type RandomStudioSize = {
  /** Orders to come; some of several lines. */
  readonly orderCount?: number
  /** Runs under way, in any stage. */
  readonly runCount?: number
}

const zones = ['UTC', 'Europe/London', 'America/New_York', 'Asia/Kolkata', 'Australia/Lord_Howe', 'Pacific/Auckland']

/** A studio with people, kilns, designs, orders and a logbook that adds up. The same seed gives the same studio. */
export function randomStudioFile(seed: number, { orderCount = 6, runCount = 4 }: RandomStudioSize = {}): StudioFile {
  const rng = seededRng(seed)
  const die = dice(rng)
  const zone = die.one(zones)
  const today = dayAfter('2026-01-01', die.between(0, 1_200))
  const nowMin = startOfDay(today, zone) + die.between(6 * 60, 22 * 60)
  const spots = randomSpots(die)
  const makers = randomMakers(die)
  const designs = randomDesigns(die)
  const kilns = randomKilns(die)
  const glazes = ['white', 'green', 'blue'].map((id) => ({
    ...({
      id,
      name: `Glaze ${id}`,
      coneLow: '5',
      coneHigh: '7',
      foodSafeTested: true,
      onHandL: die.maybe(20),
    } as const),
  }))
  return {
    format: STUDIO_FORMAT,
    version: STUDIO_VERSION,
    asOf: instantOf(nowMin),
    studio: {
      id: 'studio',
      name: `Studio ${seed}`,
      zone,
      wareBoardCount: die.between(20, 60),
      covers: ['open', 'cloth', 'loose', 'tucked', 'sealed'],
      rules: usualRules,
    },
    makers,
    hours: makers.flatMap((maker) => randomHours(die, maker.id, dayAfter(today, -40))),
    busyTimes: makers.slice(0, die.between(0, 2)).map(({ id }) => {
      const day = dayAfter(today, die.between(0, 20))
      return { id: `busy-${id}`, makerId: id, start: `${day}T10:00`, end: `${day}T1${die.between(1, 9)}:30` }
    }),
    spots,
    clays: [
      {
        id: 'clay',
        name: 'Clay',
        drying: {},
        shrinkage: { length: { dryingRatio: die.of(0.04, 0.08), bisqueRatio: 0.005, glazeRatio: die.of(0.04, 0.07) } },
        coneLow: '5',
        coneHigh: '7',
        onHandKg: die.between(50, 400),
        deliveries: [{ date: dayAfter(today, die.between(1, 30)), massKg: 200 }],
      },
    ],
    glazes,
    supplies: [{ id: 'mains', name: 'Mains', kilnsAtOnce: die.between(1, 2) }],
    kilns,
    moulds: [{ id: 'hump', name: 'Hump', count: die.between(2, 10) }],
    firingSchedules: usualSchedules
      .filter(({ cone }) => cone === '06' || cone === '6')
      .map((one) => ({ ...one, id: one.id! })),
    designs,
    orders: Array.from({ length: orderCount }, (_, index) =>
      randomOrder(
        die,
        index,
        today,
        designs.map(({ id }) => id),
      ),
    ),
    stock: randomStock(
      die,
      designs.map(({ id }) => id),
    ),
    pins: [],
    airReadings: spots.flatMap((spot) => (spot.air.kind === 'log' ? randomAir(rng, spot.id, nowMin) : [])),
    entries: randomLogbook(die, {
      nowMin,
      runCount,
      designs,
      spotIds: spots.map(({ id }) => id),
      kilnIds: kilns.map(({ id }) => id),
    }),
  }
}

/** The same studio, ready to be planned as of now. */
export function randomPlanningCase(seed: number, size: RandomStudioSize = {}, effort = 0): PlanningCase {
  const { entries, asOf, format: _format, version: _version, ...tables } = randomStudioFile(seed, size)
  const request = { nowMin: minuteOf(asOf), logPosition: entries.length, seed, effort, basePlan: null }
  return planningCaseOf(tables, entries, request)
}

function randomSpots(die: Dice): SpotRecord[] {
  return Array.from({ length: die.between(1, 3) }, (_, index) => ({
    id: `spot-${index}`,
    name: `Spot ${index}`,
    boardCount: die.between(8, 30),
    board: die.one(['sealed', 'rack'] as const),
    airSpeedMS: die.of(0.05, 0.3),
    air: die.one([
      { kind: 'log', word: 'normal' } as const,
      { kind: 'word', word: die.one(['dry', 'normal', 'damp'] as const) } as const,
    ]),
  }))
}

/** The first may do everything, so that nothing is impossible for want of anybody who may. */
function randomMakers(die: Dice): MakerRecord[] {
  return Array.from({ length: die.between(1, 3) }, (_, index) => ({
    id: `maker-${index}`,
    name: `Maker ${index}`,
    skills: index === 0 ? handWorks : handWorks.filter(() => die.chance(0.6)),
  }))
}

function randomHours(die: Dice, makerId: string, startDate: string): HoursRecord[] {
  const days = ['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU'].filter(() => die.chance(0.55))
  const weekly = (
    purpose: HoursRecord['purpose'],
    name: string,
    byDay: string,
    hour: number,
    durationMin: number,
  ): HoursRecord => ({
    id: `${makerId}-${name}`,
    makerId,
    purpose,
    rrule: byDay === '' ? 'FREQ=DAILY' : `FREQ=WEEKLY;BYDAY=${byDay}`,
    startDate,
    startTime: `${String(hour).padStart(2, '0')}:${die.one(['00', '15', '30'])}`,
    durationMin,
    exceptDates: [],
    extraDates: [],
  })
  return [
    weekly('making', 'making', days.length > 0 ? days.join(',') : 'WE', die.between(8, 14), die.between(120, 480)),
    weekly('look-in', 'morning', '', die.between(6, 8), 45),
    weekly('look-in', 'evening', '', die.between(17, 21), 60),
    weekly('kiln-watch', 'watch', '', die.between(5, 8), die.between(840, 1_020)),
  ]
}

function randomOrder(die: Dice, index: number, today: string, designIds: readonly string[]): OrderRecord {
  return {
    id: `order-${index}`,
    kind: die.one(['customer', 'market', 'stock'] as const),
    name: `Order ${index}`,
    dueDate: dayAfter(today, die.between(-3, 50)),
    weight: die.one([0.5, 1, 2]),
    oddsWanted: die.one([0.8, 0.9]),
    lines: Array.from({ length: die.between(1, 3) }, (_, line) => ({
      id: `line-${line}`,
      designId: die.one(designIds),
      glazeId: die.one(['white', 'green', 'blue', null]),
      count: die.between(1, 12),
    })),
  }
}

function randomStock(die: Dice, designIds: readonly string[]): StockRecord[] {
  return Array.from({ length: die.between(0, 3) }, (_, index) => {
    const stage = die.one(['bisque', 'finished'] as const)
    const glazeId = stage === 'finished' ? die.one(['white', 'green', 'blue']) : null
    return { id: `stock-${index}`, designId: die.one(designIds), stage, glazeId, count: die.between(1, 8) }
  })
}

/** Ten days, every three hours, with one silence. */
function randomAir(rng: Rng, spotId: string, nowMin: number): AirReadingRecord[] {
  const silentFrom = rng.int(70)
  return Array.from({ length: 80 }, (_, back) => ({
    spotId,
    at: instantOf(nowMin - 180 * (80 - back)),
    tempC: Number((19 + 2 * rng.normal()).toFixed(1)),
    rh: Number(Math.min(0.95, Math.max(0.2, 0.55 + 0.08 * rng.normal())).toFixed(3)),
  })).filter((_, index) => index < silentFrom || index > silentFrom + 8)
}
