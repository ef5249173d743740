import { describe, expect, test } from 'vitest'
import { wallAt } from '#app/calendar/zone.ts'
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import { readStudioFile } from '#app/studio/readStudioFile.ts'
import { minuteOf } from '#app/studio/wireTime.ts'
import { writeStudioFile } from '#app/studio/writeStudioFile.ts'
import { logStateOf } from '#core/logbook/fold.ts'
import { exampleStudioFile } from '#db/seed/exampleStudio.ts'

/** Every weekday, the weeks around both clock changes of 2026, a leap day, and the end of a year. */
const days = [
  '2026-11-23',
  '2026-11-24',
  '2026-11-25',
  '2026-11-26',
  '2026-11-27',
  '2026-11-28',
  '2026-11-29',
  '2026-03-22',
  '2026-03-28',
  '2026-03-29',
  '2026-03-30',
  '2026-04-05',
  '2026-10-18',
  '2026-10-24',
  '2026-10-25',
  '2026-10-26',
  '2026-11-01',
  '2028-02-29',
  '2026-12-31',
  '2027-01-01',
]

describe.each(days)('opened on %s, the example', (today) => {
  const file = exampleStudioFile(today)
  const { entries, asOf, format: _format, version: _version, ...tables } = file
  const nowMin = minuteOf(asOf)
  const { studio, entries: logbook } = planningCaseOf(tables, entries, {
    nowMin,
    logPosition: entries.length,
    seed: 1,
    effort: 0,
    basePlan: null,
  })

  test('is a studio file', () => {
    expect(() => readStudioFile(writeStudioFile(file))).not.toThrow()
  })

  test('is as of seven in the morning, all that is logged lies before, and all that is owed but what was delivered after', () => {
    expect(wallAt(nowMin, tables.studio.zone)).toBe(`${today}T07:00`)
    expect(logbook.every(({ happenedMin }) => happenedMin < nowMin)).toBe(true)
    expect(studio.airReadings.every(({ minute }) => minute < nowMin)).toBe(true)
    const past = studio.orders.filter(({ packedByMin }) => packedByMin < nowMin)
    expect(past.map(({ id }) => id)).toEqual(['cafe-plates'])
  })

  test('has a logbook that adds up, with runs in every stage of the path', () => {
    const { runs, questions, delivered } = logStateOf(studio, logbook)
    expect(questions).toEqual([])
    expect(new Set(runs.map(({ stage }) => stage))).toEqual(
      new Set(['clay', 'drying', 'in bisque', 'bisque', 'glazed']),
    )
    expect(delivered).toEqual([{ orderId: 'cafe-plates', designId: 'plate', glazeId: 'milk', count: 4 }])
  })

  test('has hours for both makers in every whole week', () => {
    for (const maker of studio.makers) {
      for (let week = 0; week < 7; week++) {
        const fromMin = nowMin + week * 7 * 1_440
        const here = maker.makingHours.filter(({ startMin }) => startMin >= fromMin && startMin < fromMin + 7 * 1_440)
        expect(here.length, `${maker.name}, week ${week}`).toBeGreaterThan(0)
      }
    }
  })
})

test('is the same whatever the process thinks the time zone is', () => {
  const before = process.env['TZ']
  const texts = ['UTC', 'America/St_Johns', 'Pacific/Auckland'].map((zone) => {
    process.env['TZ'] = zone
    return writeStudioFile(exampleStudioFile('2026-03-29'))
  })
  if (before === undefined) delete process.env['TZ']
  else process.env['TZ'] = before
  expect(new Set(texts).size).toBe(1)
})

test('a day that is none is refused', () => {
  expect(() => exampleStudioFile('2026-02-30')).toThrow(RangeError)
})
