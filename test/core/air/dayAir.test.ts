import { expect, test } from 'vitest'
import { dayAirs } from '#core/air/dayAir.ts'
import type { AirOutlook } from '#core/air/types.ts'

type Hour = { readonly tempC: number; readonly rh: number; readonly spread: number }

/** An outlook from minute 0, made hour by hour. */
function aDayOutlook(hourAt: (hour: number) => Hour, hourCount = 24): AirOutlook {
  const hours = Array.from({ length: hourCount }, (_, hour) => hourAt(hour))
  return {
    startMin: 0,
    tempC: hours.map(({ tempC }) => tempC),
    rh: hours.map(({ rh }) => rh),
    airSpeedMS: hours.map(() => 0.1),
    tempSpreadK: hours.map(({ spread }) => spread),
    rhSpread: hours.map(() => 0.05),
    tempLastingK: hours.map(() => 0),
    rhLasting: hours.map(() => 0),
  }
}

test('a day is told by its middle, its ends by the hour, and the root of the mean square of its spread', () => {
  // Twelve hours at 10 °C and twelve at 20; spreads 3 and 4: sqrt((9 + 16) / 2).
  const outlook = aDayOutlook((hour) =>
    hour < 12 ? { tempC: 10, rh: 0.4, spread: 3 } : { tempC: 20, rh: 0.6, spread: 4 },
  )
  const [day] = dayAirs(outlook, [0, 1_440])
  expect(day).toMatchObject({ startMin: 0, tempC: 15, tempLowC: 10, tempHighC: 20, rhLow: 0.4, rhHigh: 0.6 })
  expect(day!.rh).toBeCloseTo(0.5, 12)
  expect(day!.tempSpreadK).toBeCloseTo(Math.sqrt(12.5), 12)
})

test('hours belong to the day in which they begin, also on a day of 23 hours', () => {
  const outlook = aDayOutlook((hour) => ({ tempC: hour, rh: 0.5, spread: 0 }), 47)
  const days = dayAirs(outlook, [0, 23 * 60, 47 * 60])
  expect(days.map(({ tempLowC, tempHighC }) => [tempLowC, tempHighC])).toEqual([
    [0, 22],
    [23, 46],
  ])
})

test('a day that the outlook does not reach is left out', () => {
  const outlook = aDayOutlook(() => ({ tempC: 18, rh: 0.5, spread: 1 }))
  expect(dayAirs(outlook, [-1_440, 0, 1_440, 2_880]).map(({ startMin }) => startMin)).toEqual([0])
})
