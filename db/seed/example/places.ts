/** Where the example's ware waits, what it is made of, and the readings of its air. */
import type { ClayRecord, GlazeRecord } from '#contract/clay.ts'
import type { MouldRecord } from '#contract/design.ts'
import type { AirReadingRecord, SpotRecord } from '#contract/spot.ts'
import type { StudioRecord } from '#contract/studio.ts'
import type { ExampleClock } from './clock.ts'
import { exampleZone } from './clock.ts'

export const exampleStudioRecord: StudioRecord = {
  id: 'example',
  name: 'The Old Dairy, an example',
  zone: exampleZone,
  wareBoardCount: 40,
  covers: ['open', 'cloth', 'loose', 'tucked', 'sealed'],
  rules: {
    leastSessionMin: 30,
    lookInMin: 5,
    windowOdds: 0.9,
    glazeDryHours: 12,
    mixBisqueAndGlaze: false,
    wantedFill: 0.7,
    pricePerKwh: 0.29,
    co2KgPerKwh: 0.2,
    altitudeM: 60,
  },
}

export const exampleSpots: readonly SpotRecord[] = [
  {
    id: 'long-rack',
    name: 'Long rack',
    boardCount: 24,
    board: 'sealed',
    airSpeedMS: 0.1,
    air: { kind: 'log', word: 'normal' },
  },
  {
    id: 'window-rack',
    name: 'Wire rack by the window',
    boardCount: 12,
    board: 'rack',
    airSpeedMS: 0.15,
    air: { kind: 'log', word: 'normal' },
  },
  {
    id: 'kiln-shelf',
    name: 'Shelf by the kilns',
    boardCount: 8,
    board: 'rack',
    airSpeedMS: 0.15,
    air: { kind: 'word', word: 'dry' },
  },
]

export const exampleClays = (clock: ExampleClock): ClayRecord[] => [
  {
    id: 'pale',
    name: 'Pale stoneware',
    drying: {},
    shrinkage: { length: { dryingRatio: 0.06, bisqueRatio: 0.005, glazeRatio: 0.058 } },
    coneLow: '5',
    coneHigh: '7',
    onHandKg: 130,
    deliveries: [{ date: clock.nextWeekday(3, 14), massKg: 100 }],
  },
  {
    id: 'speckled',
    name: 'Speckled stoneware, grogged',
    drying: { startMoistureDb: { value: 0.235, spread: 0.012, kind: 'plus' } },
    shrinkage: { length: { dryingRatio: 0.05, bisqueRatio: 0.005, glazeRatio: 0.05 } },
    coneLow: '5',
    coneHigh: '7',
    onHandKg: 90,
    deliveries: [],
  },
]

const glaze = (id: string, name: string, foodSafeTested: boolean, onHandL: number | null): GlazeRecord => ({
  id,
  name,
  coneLow: '5',
  coneHigh: '7',
  foodSafeTested,
  onHandL,
})

export const exampleGlazes: readonly GlazeRecord[] = [
  glaze('milk', 'Milk', true, 14),
  glaze('moss', 'Moss', true, 10),
  glaze('slate', 'Slate blue', false, 12),
]

export const exampleMoulds: readonly MouldRecord[] = [{ id: 'plate-hump', name: 'Hump for plates', count: 8 }]

/**
 * Three weeks of air, hour by hour up to six in the morning: a day's swing, a week's drift, and a warmer, drier place at
 * the window. A small formula, no measurement.
 */
export function exampleAir(clock: ExampleClock): AirReadingRecord[] {
  const end = Date.parse(clock.instant(0, '06:00'))
  return Array.from({ length: 21 * 24 }, (_, back) => {
    const hour = -back
    const warmth = Math.sin((2 * Math.PI * (hour + 10)) / 24)
    const weather = Math.sin((2 * Math.PI * hour) / (24 * 6.3))
    const at = new Date(end + hour * 3_600_000).toISOString()
    return [
      {
        spotId: 'long-rack',
        at,
        tempC: rounded(18.5 + 1.2 * warmth + 0.6 * weather, 1),
        rh: rounded(0.56 - 0.03 * warmth - 0.05 * weather, 3),
      },
      {
        spotId: 'window-rack',
        at,
        tempC: rounded(19.5 + 2.4 * warmth + 0.6 * weather, 1),
        rh: rounded(0.52 - 0.06 * warmth - 0.05 * weather, 3),
      },
    ]
  }).flat()
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits))
