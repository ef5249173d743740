import psychrolib from 'psychrolib'
import { describe, expect, test } from 'vitest'
import { Refusal } from '#app/refusal.ts'
import { airFromCsv } from '#app/csv/airCsv.ts'
import type { AirCsvOptions } from '#app/csv/airCsv.ts'

const london: AirCsvOptions = { spotId: 'rack', zone: 'Europe/London' }
const table = (...lines: readonly string[]): string => lines.join('\n')

function refusalOf(text: string, options = london): string {
  try {
    airFromCsv(text, options)
  } catch (error) {
    if (error instanceof Refusal) return error.message
    throw error
  }
  throw new Error('the log was read')
}

describe('the same two readings, as loggers of many kinds write them', () => {
  const readings = [
    { spotId: 'rack', at: '2026-07-14T08:00:00.000Z', tempC: 20, rh: 0.55 },
    { spotId: 'rack', at: '2026-07-14T09:00:00.000Z', tempC: 21.5, rh: 0.505 },
  ]
  test.each([
    [
      'ISO times with zone, fractions',
      table('time,temp_C,rh', '2026-07-14T08:00:00Z,20,0.55', '2026-07-14T10:00:00+01:00,21.5,0.505'),
    ],
    [
      'wall times, °C, percent',
      table('Time,Temperature (°C),Humidity (%)', '2026-07-14 09:00,20.0,55', '2026-07-14 10:00,21.5,50.5'),
    ],
    [
      'another order of columns, and more of them',
      table(
        'No;Humidity %;Dew point °C;Temp °C;Date/Time',
        '1;55;10.7;20.0;14/07/2026 09:00',
        '2;50.5;10.8;21.5;14/07/2026 10:00',
      ),
    ],
    [
      'decimal commas between semicolons',
      table('Zeitstempel;Temperatur °C;Luftfeuchte %', '14.07.2026 09:00;20,0;55,0', '14.07.2026 10:00;21,5;50,5'),
    ],
    [
      'decimal commas in quotes',
      table('Time,Temperature °C,Humidity %', '2026-07-14 09:00,"20,0","55,0"', '2026-07-14 10:00,"21,5","50,5"'),
    ],
    [
      'tabs, date and time apart, carriage returns',
      table('Date\tTime\tTemp [°C]\tRH [%]\r', '2026/07/14\t9:00:00\t20\t55\r', '2026/07/14\t10:00:00\t21.5\t50.5\r'),
    ],
    [
      '°F and a twelve-hour clock',
      table(
        'Timestamp,Temperature (°F),Relative Humidity (%)',
        '07/14/2026 09:00 AM,68.0,55',
        '07/14/2026 10:00 AM,70.7,50.5',
      ),
    ],
    [
      '°F by its values alone',
      table('time,temperature,humidity', '2026-07-14 09:00,68.0,55', '2026-07-14 10:00,70.7,50.5'),
    ],
    [
      'units in the cells',
      table('time,temperature,humidity', '2026-07-14 09:00,20 °C,55 %', '2026-07-14 10:00,21.5 °C,50.5 %'),
    ],
    ['seconds since 1970', table('unix timestamp,temperature,humidity', '1784016000,20,55', '1784019600,21.5,50.5')],
    [
      'a preamble, as loggers put before the table',
      table(
        'Logger 12',
        'Interval;60 min',
        '',
        'Date;Time;Temperature C;Humidity',
        '2026-07-14;09:00;20;55',
        '2026-07-14;10:00;21.5;50.5',
      ),
    ],
    ['rows in any order', table('time,temp °C,hum %', '2026-07-14 10:00,21.5,50.5', '2026-07-14 09:00,20,55')],
  ])('%s', (_, text) => {
    expect(airFromCsv(text, london).readings).toEqual(readings)
  })
})

test('says what it read', () => {
  const text = table(
    'Time;Temp °F;Humidity %',
    '2026-01-14 09:00;68;55',
    '2026-01-14 09:15;;',
    '2026-01-14 09:30;---;54',
    '2026-01-14 09:45;68;54',
    '2026-01-14 09:45;69,8;53',
  )
  expect(airFromCsv(text, london)).toEqual({
    readings: [
      { spotId: 'rack', at: '2026-01-14T09:00:00.000Z', tempC: 20, rh: 0.55 },
      { spotId: 'rack', at: '2026-01-14T09:45:00.000Z', tempC: 21, rh: 0.53 },
    ],
    report: {
      columns: { time: 'Time', temperature: 'Temp °F', humidity: 'Humidity %' },
      temperatureUnit: '°F',
      humidityUnit: '%',
      readingCount: 2,
      emptyCount: 2,
      repeatedCount: 1,
      firstAt: '2026-01-14T09:00:00.000Z',
      lastAt: '2026-01-14T09:45:00.000Z',
    },
  })
})

describe('day and month', () => {
  const rows = (...times: string[]) => table('time,temp °C,hum %', ...times.map((time) => `${time},20,55`))
  const days = (text: string) => airFromCsv(text, london).readings.map(({ at }) => at.slice(0, 10))

  test('a 13 tells them apart, for all rows', () => {
    expect(days(rows('01/02/2026 09:00', '13/02/2026 09:00'))).toEqual(['2026-02-01', '2026-02-13'])
    expect(days(rows('01/02/2026 09:00', '02/13/2026 09:00'))).toEqual(['2026-01-02', '2026-02-13'])
  })
  test('else the order in which time goes on', () => {
    expect(days(rows('11/01/2026 09:00', '12/01/2026 09:00', '01/02/2026 09:00'))).toEqual([
      '2026-01-11',
      '2026-01-12',
      '2026-02-01',
    ])
  })
  test('else it asks, and takes the answer', () => {
    const unsure = rows('01/02/2026 09:00', '02/03/2026 09:00')
    expect(refusalOf(unsure)).toBe('Whether the day comes first in its dates or the month cannot be told; say which.')
    const told = airFromCsv(unsure, { ...london, dateOrder: 'month-first' })
    expect(told.readings.map(({ at }) => at.slice(0, 10))).toEqual(['2026-01-02', '2026-02-03'])
  })
  test('dates with points have the day first', () => {
    expect(days(rows('01.02.2026 09:00'))).toEqual(['2026-02-01'])
  })
})

test('wall times are those of the studio, also in the hour that clocks skip', () => {
  const text = table('time,temp °C,hum %', '2026-03-29 00:30,18,55', '2026-03-29 01:30,18,55', '2026-03-29 02:30,18,55')
  expect(airFromCsv(text, london).readings.map(({ at }) => at)).toEqual([
    '2026-03-29T00:30:00.000Z',
    '2026-03-29T01:30:00.000Z',
  ])
})

// IANA time zone database: London goes back an hour on 25 October 2026 at 1:00 UTC, Lord Howe half an hour on 5 April 2026.
test.each([
  [
    'an hour in London',
    'Europe/London',
    [
      '2026-10-25 00:30',
      '2026-10-25 01:00',
      '2026-10-25 01:30',
      '2026-10-25 01:00',
      '2026-10-25 01:30',
      '2026-10-25 02:00',
    ],
    [
      '2026-10-24T23:30',
      '2026-10-25T00:00',
      '2026-10-25T00:30',
      '2026-10-25T01:00',
      '2026-10-25T01:30',
      '2026-10-25T02:00',
    ],
  ],
  [
    'half an hour on Lord Howe Island',
    'Australia/Lord_Howe',
    ['2026-04-05 01:30', '2026-04-05 01:45', '2026-04-05 01:30', '2026-04-05 01:45', '2026-04-05 02:00'],
    ['2026-04-04T14:30', '2026-04-04T14:45', '2026-04-04T15:00', '2026-04-04T15:15', '2026-04-04T15:30'],
  ],
])('a logger that goes on while clocks go back loses nothing: %s', (_, zone, walls, moments) => {
  const { readings, report } = airFromCsv(table('time,temp_C,rh', ...walls.map((wall) => `${wall},20,0.5`)), {
    spotId: 'rack',
    zone,
  })
  expect(readings.map(({ at }) => at)).toEqual(moments.map((moment) => `${moment}:00.000Z`))
  expect(report.repeatedCount).toBe(0)
})

test('the air outside is brought to the room, its water kept', () => {
  const text = table('time,temp °C,hum %', '2026-01-14 09:00,5,80')
  const { readings } = airFromCsv(text, { ...london, outdoor: { setPointC: 20 } })
  psychrolib.SetUnitSystem(psychrolib.SI)
  // Oracle: psychrolib 1.1.1 (ASHRAE Handbook Fundamentals 2017, chapter 1).
  const waterOf = (tempC: number, rh: number) => psychrolib.GetHumRatioFromRelHum(tempC, rh, 101_325)
  expect(readings[0]!.tempC).toBe(20)
  expect(waterOf(20, readings[0]!.rh)).toBeCloseTo(waterOf(5, 0.8), 5)
})

describe('refuses, naming the line', () => {
  const head = 'time,temp °C,hum %'
  test.each([
    [
      'a word for a temperature',
      table(head, '2026-01-14 09:00,20,55', '2026-01-14 10:00,warm,55'),
      'Line 3: “warm” is not a temperature.',
    ],
    [
      'a time that is none',
      table(head, 'yesterday,20,55'),
      'Line 2: “yesterday” is not a day and time. Write it as 2026-03-02 09:30.',
    ],
    [
      'a day that is none',
      table(head, '2026-02-30 09:00,20,55'),
      'Line 2: “2026-02-30 09:00” is not a day and time. Write it as 2026-03-02 09:30.',
    ],
    ['a humidity beyond full', table(head, '2026-01-14 09:00,20,155'), 'Line 2: 155 % cannot be a relative humidity.'],
    [
      'a temperature that is no air',
      table(head, '2026-01-14 09:00,99,55'),
      'Line 2: 99 °C cannot be the air of a studio.',
    ],
    [
      'decimal commas between commas',
      table(head, '2026-01-14 09:00,21,5,55,0'),
      'Line 2: there are more cells than headings. With decimal commas, separate the columns by semicolons or tabs.',
    ],
    [
      'a table without headings',
      table('2026-01-14 09:00,20,55'),
      'The air log needs a row of headings with a time, a temperature and a humidity, such as: Time, Temperature °C, Humidity %.',
    ],
    ['a table without rows', head, 'The air log has no readings.'],
    [
      'nothing',
      '',
      'The air log needs a row of headings with a time, a temperature and a humidity, such as: Time, Temperature °C, Humidity %.',
    ],
  ])('%s', (_, text, message) => {
    expect(refusalOf(text)).toBe(message)
  })
})
