import { describe, expect, test } from 'vitest'
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import { toStudio } from '#app/studio/toStudio.ts'
import { toEntries } from '#app/studio/toEntries.ts'
import { minuteOf } from '#app/studio/wireTime.ts'
import { OUTDOORS } from '#core/air/spotAirs.ts'
import { defaultClay } from '#core/drying/clay.ts'
import type { StudioTables } from '#contract/studioFields.ts'
import { aFullStudioFile, anEmptyStudioFile } from '../../support/studioFiles.ts'

const { entries: _, format: _format, version: _version, asOf: _asOf, ...tables } = anEmptyStudioFile()
const full = aFullStudioFile()
const week = { fromMin: minuteOf('2026-03-02T00:00:00.000Z'), horizonMin: minuteOf('2026-03-09T00:00:00.000Z') }
const utc = (...times: readonly string[]) => times.map((time) => minuteOf(`2026-${time}:00.000Z`))

describe('hours', () => {
  const maker = { id: 'mara', name: 'Mara', skills: ['slab'] as const }
  const hours = (purpose: 'making' | 'look-in' | 'kiln-watch', startTime: string, durationMin: number) => ({
    id: `${purpose} ${startTime}`.replace(' ', '-'),
    makerId: 'mara',
    purpose,
    startTime,
    durationMin,
    rrule: 'FREQ=WEEKLY;BYDAY=MO',
    startDate: '2026-03-02',
    exceptDates: [],
    extraDates: [],
  })
  const withHours: StudioTables = {
    ...tables,
    makers: [maker],
    hours: [hours('making', '09:00', 120), hours('look-in', '12:00', 30), hours('kiln-watch', '10:00', 240)],
  }

  test('of making count for looking in and kiln watch too', () => {
    const [mara] = toStudio(withHours, week).makers
    const [nine, ten, eleven, noon, halfPast, two] = utc(
      '03-02T09:00',
      '03-02T10:00',
      '03-02T11:00',
      '03-02T12:00',
      '03-02T12:30',
      '03-02T14:00',
    )
    expect(ten).toBeGreaterThan(nine!)
    expect(mara!.makingHours).toEqual([{ startMin: nine, endMin: eleven }])
    expect(mara!.lookInHours).toEqual([
      { startMin: nine, endMin: eleven },
      { startMin: noon, endMin: halfPast },
    ])
    expect(mara!.kilnWatchHours).toEqual([{ startMin: nine, endMin: two }])
  })

  test('end where a busy time begins, for that maker', () => {
    const busy = { id: 'dentist', makerId: 'mara', start: '2026-03-02T10:00', end: '2026-03-02T16:00' }
    const [mara] = toStudio({ ...withHours, busyTimes: [busy] }, week).makers
    const [nine, ten] = utc('03-02T09:00', '03-02T10:00')
    expect(mara!.makingHours).toEqual([{ startMin: nine, endMin: ten }])
    expect(mara!.kilnWatchHours).toEqual([{ startMin: nine, endMin: ten }])
    const [other] = toStudio({ ...withHours, busyTimes: [{ ...busy, makerId: 'rafe' }] }, week).makers
    expect(other!.makingHours).toHaveLength(1)
    expect(other!.makingHours[0]!.endMin).toBe(nine! + 120)
  })

  test('of a maker without any are none', () => {
    const [mara] = toStudio({ ...tables, makers: [maker] }, week).makers
    expect([mara!.makingHours, mara!.lookInHours, mara!.kilnWatchHours]).toEqual([[], [], []])
  })
})

describe('days become moments of the studio’s zone', () => {
  // London: summer time from 29 March 2026.
  test('an order is packed by the midnight with which its day begins', () => {
    const orders = ['2026-03-29', '2026-03-30'].map((dueDate, index) => ({
      ...full.orders[0]!,
      id: `${index}`,
      dueDate,
    }))
    const studio = toStudio({ ...full, orders }, week)
    expect(studio.orders.map(({ packedByMin }) => packedByMin)).toEqual(utc('03-29T00:00', '03-29T23:00'))
  })

  test('a delivery of clay counts from the next midnight', () => {
    const clays = [{ ...full.clays[0]!, deliveries: [{ date: '2026-03-29', massKg: 100 }] }]
    expect(toStudio({ ...full, clays }, week).clays[0]!.deliveries).toEqual([
      { minute: utc('03-29T23:00')[0], massKg: 100 },
    ])
  })
})

test('what is logged for a spot that lives by the weather was read outside', () => {
  const spots = full.spots.map((spot) =>
    spot.id === 'long-rack' ? { ...spot, air: { kind: 'outdoors', setPointC: 19 } as const } : spot,
  )
  const ids = new Set(toStudio({ ...full, spots }, week).airReadings.map(({ spotId }) => spotId))
  expect(ids).toEqual(new Set([OUTDOORS, 'window-rack']))
})

describe('what is not known of a clay', () => {
  const { drying } = toStudio({ ...full, clays: [{ ...full.clays[0]!, drying: {} }] }, week).clays[0]!

  test('is that of a usual one', () => {
    const { endOfShrinkageDb: _end, ...rest } = drying
    const { endOfShrinkageDb: _usual, ...usual } = defaultClay
    expect(rest).toEqual(usual)
  })
  test('but shrinkage ends where its own says: near 0.14 for 6 %, common practice', () => {
    expect(drying.endOfShrinkageDb.value).toBeCloseTo(0.143, 2)
  })
  test('and what is known stands', () => {
    const known = { value: 0.235, spread: 0.01, kind: 'plus' } as const
    const clays = [{ ...full.clays[0]!, drying: { startMoistureDb: known } }]
    expect(toStudio({ ...full, clays }, week).clays[0]!.drying.startMoistureDb).toEqual(known)
  })
})

test('seconds of an entry are dropped, and an absence becomes minutes', () => {
  const around = { version: 1, roughMin: 0, deviceId: 'phone', deviceSeq: 1, by: null, hint: null } as const
  const body = { makerId: 'mara', fromAt: '2026-03-03T08:00:00.000Z', toAt: '2026-03-03T12:00:00.000Z' }
  expect(toEntries([{ ...around, id: 'a', kind: 'away', happenedAt: '2026-03-02T09:30:59.999Z', body }])).toEqual([
    {
      ...around,
      id: 'a',
      kind: 'away',
      happenedMin: utc('03-02T09:30')[0],
      body: { makerId: 'mara', fromMin: utc('03-03T08:00')[0], toMin: utc('03-03T12:00')[0] },
    },
  ])
})

describe('the planning case', () => {
  const request = { logPosition: 0, seed: 1, effort: 0, basePlan: null }

  test('holds today and tomorrow, days of the studio', () => {
    // Half past midnight on the 30th in London, still the 29th in UTC.
    const [nowMin] = utc('03-29T23:30')
    const planningCase = planningCaseOf(tables, [], { ...request, nowMin: nowMin! })
    expect(planningCase.holdUntilMin).toBe(utc('03-31T23:00')[0])
    expect(planningCase.horizonMin).toBe(utc('05-24T23:00')[0])
    expect(planningCase.dayOffsetMin).toBe(60)
  })

  test('in winter has no hour between clock and UTC', () => {
    const planningCase = planningCaseOf(tables, [], { ...request, nowMin: utc('01-14T09:00')[0]! })
    expect(planningCase.dayOffsetMin).toBe(0)
    expect(planningCase.input).toEqual({
      logPosition: 0,
      nowMin: utc('01-14T09:00')[0],
      basePlanId: null,
      seed: 1,
      effort: 0,
    })
  })

  test('has the calendars of this morning too', () => {
    const nowMin = minuteOf(full.asOf) + 8 * 60
    const { studio } = planningCaseOf(full, full.entries, { ...request, nowMin })
    expect(studio.makers.find(({ id }) => id === 'ines')!.makingHours[0]!.startMin).toBeLessThan(nowMin)
  })
})
