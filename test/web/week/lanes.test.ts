import { describe, expect, test } from 'vitest'
import { airList } from '../../../src/web/week/airLanes.ts'
import { lanesList } from '../../../src/web/week/lanesList.ts'
import { weekLanes } from '../../../src/web/week/lanes.ts'
import type { Ground } from '../../../src/web/week/ground.ts'
import { weekSheet } from '../../../src/web/week/weekSheet.ts'
import { handPlan } from '../../support/handPlan.ts'
import { aStudioFile } from '../../support/recordBuilders.ts'
import { at } from '../../support/studioBuilders.ts'

const studio = aStudioFile({ pins: [] })
const context = { zone: 'UTC', locale: 'en-GB', units: 'metric', nowMin: at(0, 8) } as const
const day = {
  tempC: 18.2,
  tempLowC: 16,
  tempHighC: 20,
  rh: 0.55,
  rhLow: 0.5,
  rhHigh: 0.6,
  tempSpreadK: 1.4,
  rhSpread: 0.07,
}
const ground: Ground = {
  nowMin: at(0, 8),
  makers: [{ id: 'mara', makingHours: [{ startMin: at(0, 9), endMin: at(0, 17) }] }],
  air: [
    {
      spotId: 'rack',
      isRead: true,
      days: [
        { ...day, startMin: at(0) },
        { ...day, startMin: at(1) },
      ],
    },
  ],
}
const view = { plan: handPlan, studio, ground, context }
const span = { fromMin: at(0), toMin: at(2) }
const lanes = weekLanes(view, span)
const laneOf = (name: string) => lanes.find((lane) => lane.name === name && !lane.isHeading)

describe('lanes', () => {
  test('stand in their groups, the air on top; a group without lanes is left out', () =>
    expect(lanes.filter(({ isHeading }) => isHeading).map(({ name }) => name)).toEqual([
      'Air',
      'Hands',
      'Waiting ware',
      'Racks',
    ]))

  test('the air is said for each day, with how far it may stray', () => {
    expect(lanes[1]!.bars).toMatchObject([
      // 0.5 - 0.07 to 0.6 + 0.07
      {
        kind: 'air',
        startMin: at(0),
        endMin: at(1),
        label: '18 °C ±1, 55 % ±7',
        shares: { low: expect.closeTo(0.43, 9), high: expect.closeTo(0.67, 9) },
      },
      { startMin: at(1), endMin: at(2) },
    ])
  })

  test('hands have their hours behind them, and only steps can be moved', () => {
    const bars = laneOf('Mara')!.bars
    expect(bars[0]).toMatchObject({ kind: 'hours', startMin: at(0, 9) })
    const movable = bars.filter(({ taskId }) => taskId !== undefined)
    expect(movable.map(({ kind }) => kind)).toEqual(['hands', 'hands'])
    expect(bars.filter(({ kind }) => kind === 'look-in').every(({ taskId }) => taskId === undefined)).toBe(true)
  })

  test('whoever has nothing to do keeps a lane', () => expect(laneOf('Jo')?.bars).toEqual([]))

  test('bars end where the days shown end', () => {
    const ends = lanes.flatMap(({ bars }) => bars.map(({ endMin }) => endMin))
    expect(Math.max(...ends)).toBe(at(2))
  })

  test('work at a kiln is said in words', () => {
    const late = weekLanes(view, { fromMin: at(14), toMin: at(21) })
    const labels = late.find(({ makerId }) => makerId === 'mara')!.bars.map(({ label }) => label)
    expect(labels).toContain('Switch on: Round kiln (bisque)')
    expect(labels).toContain('Be there at shut-off: Round kiln (bisque)')
  })
})

test('ware, racks and kilns are told as a list; hands and air have lists of their own', () => {
  const list = lanesList(lanes, context).map(({ said }) => said)
  const drawn = lanes.filter(({ key }) => /^(run|spot|kiln) /.test(key))
  expect(list).toHaveLength(drawn.length)
  expect(list).toContainEqual(
    expect.stringMatching(/^2 Tray: 2 waiting today 9:\d\d to .*; window tomorrow, 9:00 to 12:00\.$/),
  )
})

test('the list of the air tells the same as the lanes, in the reader’s units', () => {
  const us = { ...view, context: { ...context, units: 'us' } as const }
  // 18.2 °C is 64.76 °F; a spread of 1.4 K is 2.52 Fahrenheit degrees; 16 and 20 °C are 60.8 and 68.
  expect(airList(us, { fromMin: at(0), toMin: at(1) })[0]?.said).toContain(
    'from what was read there: Today 65 °F ±3, 55 % ±7 (61 °F to 68 °F and 50 to 60 % by the hour).',
  )
})

describe('the days on paper', () => {
  const days = weekSheet({ plan: handPlan, studio, context }, [at(0), at(1), at(2)])
  test('each has its hands in the order of the clock', () => {
    expect(days.map(({ name }) => name)).toEqual(['Monday 2 March', 'Tuesday 3 March'])
    expect(days[0]!.rows.map(({ when }) => when.split(',')[0])).toEqual(['9:00', '21:50'])
    expect(days[1]!.rows.map(({ when }) => when.split(',')[0])).toEqual(['7:35', '9:30'])
  })
  test('what is covered or opened afterwards is said', () => {
    expect(days[0]!.rows[0]!.notes).toEqual(['Then it waits open.'])
    expect(days[1]!.rows[0]!.notes[0]).toMatch(/if every part is leather hard, tuck plastic round it/i)
    expect(days[1]!.rows[1]!.notes[0]).toMatch(
      /^Window .*9:00 to 12:00; Base goes first; 9 in 10\. Then it waits sealed\.$/,
    )
  })
  test('look-ins that follow one another are one round, with a line for each run', () => {
    const [first] = handPlan.tasks.filter(({ kind }) => kind === 'look-in')
    const second = { ...first!, id: 'second', startMin: first!.endMin, endMin: first!.endMin + 5 }
    const later = { ...first!, id: 'later', startMin: first!.endMin + 30, endMin: first!.endMin + 35 }
    const plan = { ...handPlan, tasks: [first!, second, later] }
    const [day] = weekSheet({ plan, studio, context }, [at(0), at(1)])
    expect(day!.rows.map(({ what, notes }) => [what.replace(/ at .*/, ''), notes.length])).toEqual([
      ['Look in', 2],
      ['Look in', 1],
    ])
  })
})
