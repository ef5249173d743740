import { describe, expect, test } from 'vitest'
import { drawnAir, middleAir } from '#core/air/drawnAir.ts'
import { readForecast } from '#core/air/forecast.ts'
import { indoorFromOutdoor } from '#core/air/indoor.ts'
import { hourlyOutlook, type OutlookOptions } from '#core/air/outlook.ts'
import { saturationOverWaterPa } from '#core/air/psychrometrics.ts'
import { checkedReadings } from '#core/air/readings.ts'
import { OUTDOORS, spotAirs } from '#core/air/spotAirs.ts'
import type { AirReading } from '#core/air/types.ts'
import { airIf } from '#core/air/whatIf.ts'
import { threeWordAir } from '#core/air/words.ts'

const DAY_MIN = 1440
const NOW_MIN = 40 * DAY_MIN
const options: OutlookOptions = {
  fromMin: NOW_MIN - 5 * DAY_MIN,
  toMin: NOW_MIN + 21 * DAY_MIN,
  nowMin: NOW_MIN,
  dayOffsetMin: 0,
  airSpeedMS: 0.1,
  word: 'normal',
}

/** Four weeks of a room that is driest at three in the afternoon. */
function aLog(shiftRh = 0): AirReading[] {
  return Array.from({ length: 28 * 24 + 1 }, (_, hour) => {
    const day = Math.cos((2 * Math.PI * (hour - 15)) / 24)
    return { minute: NOW_MIN - 28 * DAY_MIN + hour * 60, tempC: 19 + 2 * day, rh: 0.5 + shiftRh - 0.1 * day }
  })
}

const hourOf = (minute: number): number => (minute - options.fromMin) / 60

describe('indoors from outdoors', () => {
  test('keeps the water in the air and takes the room’s temperature', () => {
    // 0 °C, 80 %: 0.8 x 611 = 489 Pa; over 2339 Pa at 20 °C that is 21 %.
    expect(indoorFromOutdoor({ tempC: 0, rh: 0.8 }, 20).rh).toBeCloseTo(0.209, 3)
    expect(indoorFromOutdoor({ tempC: 0, rh: 0.8 }, 20).tempC).toBe(20)
  })

  test('is never cooler than outside, nor damper than 95 %', () => {
    expect(indoorFromOutdoor({ tempC: 27, rh: 0.6 }, 20).tempC).toBe(28)
    expect(indoorFromOutdoor({ tempC: 20, rh: 1 }, 15).rh).toBeLessThanOrEqual(0.95)
  })

  test('counts frost’s humidity against water, as stations report it', () => {
    const expected = (0.7 * saturationOverWaterPa(-12)) / saturationOverWaterPa(20)
    expect(indoorFromOutdoor({ tempC: -12, rh: 0.7 }, 20).rh).toBeCloseTo(expected, 6)
  })
})

describe('the outlook of a spot', () => {
  const { outlook, notes } = hourlyOutlook(aLog(), options)

  test('is the log where there is one', () => {
    const at = hourOf(NOW_MIN - DAY_MIN)
    expect(outlook.tempC[at]).toBeCloseTo(aLog().at(-25)!.tempC, 9)
    expect(notes).toEqual([])
  })

  test('goes on with the spot’s own rhythm of the day', () => {
    const tomorrow = (hour: number): number => outlook.rh[hourOf(NOW_MIN + DAY_MIN + hour * 60)]!
    expect(tomorrow(3) - tomorrow(15)).toBeGreaterThan(0.15)
    expect(tomorrow(3)).toBeGreaterThan(0.55)
  })

  test('spreads with distance', () => {
    const spreads = [1, 6, 24, 72, 240].map((hours) => outlook.rhSpread[hourOf(NOW_MIN + hours * 60)]!)
    expect(spreads).toEqual(spreads.toSorted((a, b) => a - b))
    expect(spreads.at(-1)!).toBeGreaterThan(1.5 * spreads[0]!)
  })

  test('lets a damp spell fade', () => {
    const spell = aLog().map((one) => (one.minute > NOW_MIN - 2 * DAY_MIN ? { ...one, rh: one.rh + 0.2 } : one))
    const { outlook: damp } = hourlyOutlook(spell, options)
    const more = (days: number): number =>
      damp.rh[hourOf(NOW_MIN + days * DAY_MIN)]! - outlook.rh[hourOf(NOW_MIN + days * DAY_MIN)]!
    expect(more(1)).toBeGreaterThan(0.08)
    expect(more(10)).toBeLessThan(0.05)
    expect(more(10)).toBeGreaterThan(0)
  })

  test('moves with the season: what was read lately counts for more of the level', () => {
    // Over four weeks a room grows damper by 20 points: their plain mean is 0.5, the last week's 0.575.
    const rising = aLog().map((one) => ({
      ...one,
      rh: one.rh - 0.1 + (0.2 * (one.minute - NOW_MIN + 28 * DAY_MIN)) / (28 * DAY_MIN),
    }))
    const { outlook: ahead } = hourlyOutlook(rising, options)
    const dayMean = Array.from({ length: 24 }, (_, hour) => ahead.rh[hourOf(NOW_MIN + 10 * DAY_MIN) + hour]!)
    const meanRh = dayMean.reduce((sum, rh) => sum + rh, 0) / 24
    expect(meanRh).toBeGreaterThan(0.51)
    expect(meanRh).toBeLessThan(0.56)
  })

  test('fills gaps, and says so', () => {
    const holed = aLog().filter(({ minute }) => minute < NOW_MIN - 3 * DAY_MIN || minute > NOW_MIN - 2 * DAY_MIN)
    const filled = hourlyOutlook(holed, options)
    expect(filled.notes).toEqual([{ code: 'log-has-gaps', params: { count: 1, longestHours: 26 } }])
    const middle = hourOf(NOW_MIN - 2.5 * DAY_MIN)
    expect(Math.abs(filled.outlook.rh[middle]! - outlook.rh[middle]!)).toBeLessThan(0.03)
    expect(filled.outlook.rhSpread[middle]!).toBeGreaterThan(outlook.rhSpread[middle]!)
  })

  test('takes a forecast where there is one', () => {
    const forecast = Array.from({ length: 72 }, (_, i) => ({ minute: NOW_MIN + i * 60, tempC: 25, rh: 0.3 }))
    const told = hourlyOutlook(aLog(), { ...options, forecast })
    const at = hourOf(NOW_MIN + DAY_MIN)
    expect(told.outlook.rh[at]).toBeCloseTo(0.3, 6)
    expect(told.outlook.rhSpread[at]!).toBeLessThan(outlook.rhSpread[at]!)
    expect(told.outlook.rh[hourOf(NOW_MIN + 6 * DAY_MIN)]!).toBeGreaterThan(0.35)
  })
})

describe('bad logs', () => {
  const sane = ({ outlook }: ReturnType<typeof hourlyOutlook>): boolean =>
    [outlook.tempC, outlook.rh, outlook.tempSpreadK, outlook.rhSpread].every((series) =>
      series.every(Number.isFinite),
    ) && outlook.rh.every((rh) => rh >= 0 && rh <= 1)

  test('300 % humidity, a broken sensor, a kiln’s inside: set aside by name', () => {
    const bad = [
      { minute: 0, tempC: 20, rh: 3 },
      { minute: 60, tempC: NaN, rh: 0.5 },
      { minute: 120, tempC: 900, rh: 0.5 },
      { minute: 180, tempC: 20, rh: 1.02 },
    ]
    const { readings, notes } = checkedReadings(bad, 200)
    expect(readings).toEqual([{ minute: 180, tempC: 20, rh: 1 }])
    expect(notes.map(({ code }) => code)).toEqual([
      'humidity-out-of-range',
      'reading-not-a-number',
      'temperature-out-of-range',
    ])
    expect(sane(hourlyOutlook(bad, options))).toBe(true)
  })

  test('a year’s silence: the word takes over, widely', () => {
    const old = aLog(0.3).map((one) => ({ ...one, minute: one.minute - 365 * DAY_MIN }))
    const silent = hourlyOutlook(old, options)
    expect(silent.notes).toContainEqual({ code: 'log-silent-for-days', params: { days: 365 } })
    expect(silent.outlook.rhSpread[10]!).toBeGreaterThan(0.15)
    expect(sane(silent)).toBe(true)
  })

  test('nothing at all: the word', () => {
    const { outlook, notes } = hourlyOutlook([], { ...options, word: 'damp' })
    expect(notes).toEqual([{ code: 'nothing-logged', params: {} }])
    expect(outlook.rh.every((rh) => Math.abs(rh - threeWordAir('damp').rh) < 1e-9)).toBe(true)
  })
})

describe('draws of an outlook', () => {
  const { outlook } = hourlyOutlook(aLog(), options)
  const at = NOW_MIN + 10 * DAY_MIN

  test('are as wide as it says, and the middle where it says', () => {
    const values = Array.from({ length: 400 }, (_, seed) => {
      // Scores of a normal distribution by thirds of its quantiles would do: here a fixed, even spread from -1.7 to 1.7.
      const damp = ((seed % 40) / 39 - 0.5) * 3.46
      return drawnAir(outlook, { warmth: 0, damp, seed: seed + 1 })(at).rh
    })
    const mean = values.reduce((sum, rh) => sum + rh, 0) / values.length
    const spread = Math.sqrt(values.reduce((sum, rh) => sum + (rh - mean) ** 2, 0) / values.length)
    expect(Math.abs(mean - outlook.rh[hourOf(at)]!)).toBeLessThan(0.02)
    expect(Math.abs(spread / outlook.rhSpread[hourOf(at)]! - 1)).toBeLessThan(0.15)
  })

  test('are the same for the same draw, and change evenly between hours', () => {
    const draw = { warmth: 0.5, damp: -0.3, seed: 8 }
    const [a, b] = [drawnAir(outlook, draw), drawnAir(outlook, draw)]
    expect(a(at)).toEqual(b(at))
    expect(a(at + 30).rh).toBeCloseTo((a(at).rh + a(at + 60).rh) / 2, 12)
  })

  test('the middle strays nowhere', () => {
    expect(middleAir(outlook)(at).tempC).toBeCloseTo(outlook.tempC[hourOf(at)]!, 12)
    expect(drawnAir(outlook, { warmth: 0, damp: 0, seed: 0 })(at).rh).toBeCloseTo(outlook.rh[hourOf(at)]!, 12)
  })
})

test('each spot’s air comes from where it is known', () => {
  const airs = spotAirs({
    spots: [
      { id: 'rack', air: { kind: 'log', word: 'normal' }, airSpeedMS: 0.1 },
      { id: 'cellar', air: { kind: 'word', word: 'damp' }, airSpeedMS: 0.05 },
      { id: 'loft', air: { kind: 'outdoors', setPointC: 20 }, airSpeedMS: 0.2 },
    ],
    readings: [
      ...aLog().map((one) => ({ ...one, spotId: 'rack' })),
      ...aLog().map(({ minute }) => ({ minute, tempC: 0, rh: 0.8, spotId: OUTDOORS })),
    ],
    fromMin: options.fromMin,
    toMin: options.toMin,
    nowMin: NOW_MIN,
    dayOffsetMin: 0,
  })
  const middle = { warmth: 0, damp: 0, seed: 0 }
  const yesterday = NOW_MIN - DAY_MIN
  expect(airs.airOf('rack', middle)(yesterday).rh).toBeCloseTo(aLog().at(-25)!.rh, 6)
  expect(airs.airOf('cellar', middle)(yesterday).rh).toBeCloseTo(threeWordAir('damp').rh, 9)
  expect(airs.airOf('cellar', middle)(yesterday).airSpeedMS).toBeCloseTo(0.05, 9)
  expect(airs.airOf('loft', middle)(yesterday)).toMatchObject({ tempC: 20, airSpeedMS: 0.2 })
  expect(airs.airOf('loft', middle)(yesterday).rh).toBeCloseTo(0.209, 2)
  expect(airs.airOf('nowhere', middle)(yesterday).rh).toBeCloseTo(threeWordAir('normal').rh, 9)
})

describe('what if', () => {
  const airAt = () => ({ tempC: 15, rh: 0.7, airSpeedMS: 0.1 })

  test('a heater warms and so dries, a fan stirs, a dehumidifier takes', () => {
    // 0.7 of 1705 Pa at 15 °C over 2339 Pa at 20 °C: 51 %.
    expect(airIf(airAt, { heaterK: 5 })(0).rh).toBeCloseTo(0.51, 2)
    expect(airIf(airAt, { fanMS: 1 })(0)).toMatchObject({ tempC: 15, airSpeedMS: 1 })
    expect(airIf(airAt, { dehumidifierRh: 0.45 })(0).rh).toBe(0.45)
  })

  test('a kiln warms the room while it runs and for hours afterwards', () => {
    const warmed = airIf(airAt, { kilnRuns: [{ startMin: 600, endMin: 1200, warmthK: 8 }] })
    expect(warmed(500).tempC).toBe(15)
    expect(warmed(1200).tempC).toBeGreaterThan(22)
    expect(warmed(1400).tempC).toBeGreaterThan(16)
    expect(warmed(1400).tempC).toBeLessThan(warmed(1200).tempC)
    expect(warmed(1200).rh).toBeLessThan(0.5)
  })
})

describe('a forecast file', () => {
  const file = (hours: unknown) => ({ format: 'wareboard-forecast', version: 1, hours })

  test('is read as written down', () => {
    expect(readForecast(file([{ at: '1970-01-01T06:00Z', tempC: 3.5, rh: 0.81 }]))).toEqual({
      ok: true,
      readings: [{ minute: 360, tempC: 3.5, rh: 0.81 }],
    })
  })

  test.each([
    [{ hours: [] }, 'not-a-forecast', {}],
    [null, 'not-a-forecast', {}],
    [{ ...file([]), version: 2 }, 'version-not-known', { version: '2' }],
    [file([{ at: '1970-01-01T06:00', tempC: 3, rh: 0.8 }]), 'hour-not-understood', { hour: 1 }],
    [
      file([
        { at: '1970-01-01T06:00Z', tempC: 3, rh: 0.8 },
        { at: '1970-01-01T07:00Z', tempC: 3, rh: 81 },
      ]),
      'value-out-of-range',
      { hour: 2, tempC: 3, rh: 81 },
    ],
  ])('%j is refused: %s', (json, code, params) => {
    expect(readForecast(json)).toEqual({ ok: false, reason: { code, params } })
  })
})
