import type { Beginning } from '#contract/beginning.ts'
import { STUDIO_FORMAT, STUDIO_VERSION } from '#contract/studioFields.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { dayAt } from '#app/calendar/zone.ts'
import { usualSchedules } from '#core/firing/usualSchedules.ts'
import { plainDesign } from '#core/studio/plainDesign.ts'
import { handWorks } from '#core/studio/studio.ts'
import { usualKiln } from '#core/studio/usualKilns.ts'
import { minuteOf } from './wireTime.ts'

/** Stoneware bodies and glazes mature a cone either side. Common practice, no source. */
const coneRange = {
  '6': { coneLow: '5', coneHigh: '7' },
  '10': { coneLow: '9', coneHigh: '11' },
} as const

const everyDay = 'MO,TU,WE,TH,FR,SA,SU'

/**
 * The first studio of somebody's own: one maker, one kiln, one clay, one glaze, one design, one order.
 * @param now UTC, as the contract spells it
 * @throws Refusal for a zone that this machine does not know
 */
export function beginStudio(answers: Beginning, now: string): StudioFile {
  const { piece, order, glazeCone } = answers
  const bisque = usualSchedules.find(({ id }) => id === 'medium-bisque-06')!
  const glaze = usualSchedules.find(({ id }) => id === `medium-glaze-${glazeCone}`)!
  const cones = coneRange[glazeCone]
  return {
    format: STUDIO_FORMAT,
    version: STUDIO_VERSION,
    asOf: now,
    studio: studioRecord(answers),
    makers: [{ id: 'maker', name: answers.makerName, skills: [...handWorks] }],
    hours: hours(answers, dayAt(minuteOf(now), answers.zone)),
    busyTimes: [],
    spots: [
      {
        id: 'rack',
        name: 'Rack',
        boardCount: 24,
        board: 'sealed',
        airSpeedMS: 0.1,
        air: { kind: 'log', word: answers.air },
      },
    ],
    clays: [
      {
        id: 'clay',
        name: 'Stoneware',
        drying: {},
        // Common practice, no source: twelve in the hundred in all, half of it in drying.
        shrinkage: { length: { dryingRatio: 0.06, bisqueRatio: 0.005, glazeRatio: 0.058 } },
        ...cones,
        onHandKg: answers.clayKg,
        deliveries: [],
      },
    ],
    glazes: [{ id: 'glaze', name: 'Glaze', ...cones, foodSafeTested: false, onHandL: null }],
    supplies: [{ id: 'supply', name: 'Power', kilnsAtOnce: 1 }],
    kilns: [{ id: 'kiln', name: 'Kiln', supplyId: 'supply', ...usualKiln(answers.kiln) }],
    moulds: [],
    firingSchedules: [bisque, glaze].map((schedule) => ({ ...schedule, id: schedule.id! })),
    designs: [
      plainDesign(
        { ...piece, id: 'first-design' },
        { clayId: 'clay', glazeIds: ['glaze'], bisqueScheduleId: bisque.id!, glazeScheduleId: glaze.id! },
      ),
    ],
    orders: [
      {
        id: 'first-order',
        kind: 'customer',
        name: order.name,
        dueDate: order.dueDate,
        weight: 1,
        oddsWanted: 0.8,
        lines: [{ id: 'first-order-1', designId: 'first-design', glazeId: null, count: order.count }],
      },
    ],
    stock: [],
    pins: [],
    airReadings: [],
    entries: [],
  }
}

function studioRecord({ studioName, zone }: Beginning): StudioFile['studio'] {
  return {
    id: 'studio',
    name: studioName,
    zone,
    wareBoardCount: 24,
    covers: ['open', 'cloth', 'loose', 'tucked', 'sealed'],
    rules: {
      leastSessionMin: 30,
      lookInMin: 5,
      windowOdds: 0.9,
      glazeDryHours: 12,
      mixBisqueAndGlaze: false,
      wantedFill: 0.6,
      // Not asked: no price is better than a wrong one.
      pricePerKwh: 0,
      co2KgPerKwh: 0,
      altitudeM: 0,
    },
  }
}

function hours({ making, makingDays, lookIns, kilnWatch }: Beginning, today: string): StudioFile['hours'] {
  const rows = [
    { purpose: 'making', days: makingDays.join(), span: making },
    { purpose: 'look-in', days: everyDay, span: lookIns },
    { purpose: 'kiln-watch', days: everyDay, span: kilnWatch },
  ] as const
  return rows.map(({ purpose, days, span: { from, to } }) => ({
    id: purpose,
    makerId: 'maker',
    purpose,
    rrule: `FREQ=WEEKLY;BYDAY=${days}`,
    startDate: today,
    startTime: from,
    durationMin: minuteOfDay(to) - minuteOfDay(from),
    exceptDates: [],
    extraDates: [],
  }))
}

const minuteOfDay = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3))
