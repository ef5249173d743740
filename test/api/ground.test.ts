import { expect, test } from 'vitest'
import type { Ground } from '#app/plan/groundOf.ts'
import { anApi } from '../support/anApi.ts'
import { withDb } from '../support/databases.ts'
import { aStudioFile } from '../support/recordBuilders.ts'
import { aSpot } from '../support/studioBuilders.ts'

const spots = [
  aSpot({ air: { kind: 'log', word: 'normal' } }),
  aSpot({ id: 'shelf', name: 'Shelf by the heater', air: { kind: 'outdoors', setPointC: 18.5 } }),
]

test('the hours and the air that a plan counts on are told by the minute and by the day', () =>
  withDb(async (db) => {
    const { send } = anApi(db)
    await send('POST', '/api/import', aStudioFile({ entries: [], pins: [], spots }))
    const response = await send('GET', '/api/plan/ground')
    expect(response.status).toBe(200)
    const { makers, air } = (await response.json()) as Ground
    // Mondays and Wednesdays from 2 March, 9 to 13, but not on the 4th; the clock stands at 9 on the 2nd.
    const mara = makers.find(({ id }) => id === 'mara')!
    const days = mara.makingHours.map(({ startMin }) => new Date(startMin * 60_000).toISOString().slice(0, 10))
    expect(days.slice(0, 2)).toEqual(['2026-03-02', '2026-03-09'])
    expect(air.map(({ spotId, isRead }) => [spotId, isRead])).toEqual([
      ['rack', true],
      ['shelf', false],
    ])
    const rack = air[0]!.days
    expect(rack).toHaveLength(56)
    // The day that was read strays less than one in a week.
    expect(rack[7]!.tempSpreadK).toBeGreaterThan(rack[0]!.tempSpreadK)
    for (const { rhLow, rhHigh } of rack) expect(rhLow).toBeLessThanOrEqual(rhHigh)
  }))
