import { expect, test } from 'vitest'
import type { OrderRecord } from '#contract/order.ts'
import { linesSaid } from '../../../src/web/orders/lines.ts'
import type { Studio } from '../../../src/web/data/queries.ts'
import { aPlan } from '../../support/planBuilders.ts'

const context = { zone: 'Europe/London', locale: 'en-GB', units: 'metric', nowMin: 0 } as const
const studio = { designs: [{ id: 'tray', name: 'Tray' }], glazes: [] } as unknown as Studio
const order = {
  id: 'o',
  oddsWanted: 0.9,
  lines: [{ id: 'l', designId: 'tray', glazeId: null, count: 4 }],
} as unknown as OrderRecord

const standingAt = (odds: number, late = 0) => {
  const promise = { orderId: 'o', orderLineId: 'l', designId: 'tray', wanted: 4, onTime: 4 - late, late, odds }
  const plan = aPlan({ promises: [{ ...promise, readyMin: 900, lastSafeCutMin: null }] })
  return linesSaid(order, plan, studio, context)[0]!.standing
}

test('a line is kept only at the odds that were wanted', () => {
  expect(standingAt(0.9)).toBe('kept')
  expect(standingAt(0.89)).toBe('doubtful')
  expect(standingAt(0.95, 1)).toBe('late')
})
