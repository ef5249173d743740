import { expect, test } from 'vitest'
import { honestDate } from '#app/questions/honestDate.ts'
import type { OrderPromise } from '#core/planning/plan.ts'
import { exampleStudioFile } from '../../../db/seed/exampleStudio.ts'
import { handPlan } from '../../support/handPlan.ts'
import { aPlan } from '../../support/planBuilders.ts'

const [aPromise] = handPlan.promises as [OrderPromise]

test('a large order that cannot be made is told why, each reason once', async () => {
  const file = exampleStudioFile('2026-11-25')
  const order = {
    id: 'wish',
    kind: 'customer',
    name: 'wish',
    dueDate: '2026-12-01',
    weight: 1,
    oddsWanted: 0.9,
    lines: [{ id: 'wish', designId: 'tray', glazeId: null, count: 300 }],
  } as const
  const noClay = { code: 'no-clay', params: { clay: 'stoneware', neededKg: 300, onHandKg: 20 } } as const
  const noKiln = { code: 'no-kiln-fires', params: { schedule: 'cone 6' } } as const
  const left = { orderId: 'wish', orderLineId: 'wish', runId: null, designId: 'tray', count: 100, remedies: [] }
  const leftOut = [[noClay], [noClay, noKiln], [noClay]].map((reasons) => ({ ...left, reasons }))
  const plan = aPlan({ leftOut })
  const studio = { tables: file, entries: file.entries, logPosition: file.entries.length }
  const { dueDate, reasons } = await honestDate(studio, 29_400_000, order, () => plan)
  expect({ dueDate, reasons }).toEqual({ dueDate: null, reasons: [noClay, noKiln] })
})

const file = exampleStudioFile('2026-11-25')
const studio = { tables: file, entries: file.entries, logPosition: file.entries.length }
const nowMin = Date.parse('2026-11-25T09:00:00Z') / 60_000
const wish = {
  id: 'wish',
  kind: 'customer',
  name: 'wish',
  dueDate: '2026-12-05',
  weight: 1,
  oddsWanted: 0.9,
  lines: [{ id: 'wish', designId: 'tray', glazeId: null, count: 4 }],
} as const
const others = { ...aPromise, orderId: 'others', orderLineId: 'others', wanted: 1, onTime: 1, odds: 1 }

/** A studio in which the wish is packed by 9 December at the earliest, and its odds hang on the date. */
async function askedWith(oddsOfDay: (dueDate: string) => number, harmsBefore = '', dueDate: string = wish.dueDate) {
  const tried: string[] = []
  const answer = await honestDate(studio, nowMin, { ...wish, dueDate }, ({ tables }, soonOrderIds = []) => {
    const order = tables.orders.find(({ id }) => id === 'wish')
    if (!order) return aPlan({ promises: [others] })
    if (soonOrderIds.length === 0) tried.push(order.dueDate)
    const readyMin = Date.parse('2026-12-09T15:00:00Z') / 60_000
    const mine = { ...aPromise, orderId: 'wish', orderLineId: 'wish', wanted: 4, onTime: 4, readyMin }
    const isHarmful = order.dueDate < harmsBefore
    return aPlan({
      promises: [
        { ...mine, odds: oddsOfDay(order.dueDate) },
        { ...others, onTime: isHarmful ? 0 : 1 },
      ],
    })
  })
  return { answer, tried }
}

test('the first date is the day after it is packed, and the first that keeps the odds is the answer', async () => {
  const { answer, tried } = await askedWith((day) => (day >= '2026-12-16' ? 0.9 : 0.7))
  expect(tried).toEqual(['2026-12-10', '2026-12-12', '2026-12-16'])
  expect(answer).toMatchObject({ dueDate: '2026-12-16', isKept: true, promises: [{ odds: 0.9 }] })
  expect(answer.tried.map(({ odds }) => odds)).toEqual([0.7, 0.7, 0.9])
})

test('a date that takes from others is no answer', async () => {
  const { answer } = await askedWith(() => 0.95, '2026-12-12')
  expect(answer).toMatchObject({ dueDate: '2026-12-12', isKept: true })
  expect(answer.tried[0]).toEqual({ dueDate: '2026-12-10', odds: 0.95, harmedOrderIds: ['others'] })
})

test('where no date keeps the odds, the soonest of the surest is said, and that it is not kept', async () => {
  const { answer, tried } = await askedWith((day) => (day >= '2026-12-12' ? 0.8 : 0.5))
  expect(tried).toHaveLength(5)
  expect(answer).toMatchObject({ dueDate: '2026-12-12', isKept: false, promises: [{ odds: 0.8 }] })
})

test('wished for later than is planned ahead, it is answered by the last day that is', async () => {
  const { answer, tried } = await askedWith(() => 0.95, '', '2027-06-01')
  expect(tried).toEqual(['2027-01-20'])
  expect(answer).toMatchObject({ dueDate: '2027-01-20', isKept: true })
})
