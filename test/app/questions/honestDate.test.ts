import { expect, test } from 'vitest'
import { honestDate } from '#app/questions/honestDate.ts'
import { exampleStudioFile } from '../../../db/seed/exampleStudio.ts'
import { aPlan } from '../../support/planBuilders.ts'

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
