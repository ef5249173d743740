import { expect } from 'vitest'
import type { OrderRecord } from '#contract/order.ts'
import { ask } from '../support/ownServer.ts'
import { journey } from './journey.ts'

journey('an order is entered once it can be read, and its date follows', async ({ server, open }) => {
  const page = await open(server, '/orders', { size: 'phone' })
  await page.getByRole('button', { name: 'Enter the order' }).click()
  expect(await page.locator('[aria-invalid="true"]').count()).toBe(4)

  await page.getByLabel('For whom or what').fill('Harbour shop')
  await page.getByLabel('Design').selectOption('Side plate')
  await page.getByLabel('Glaze').selectOption('Milk')
  await page.getByLabel('How many').fill('6')
  await page.getByLabel('Due').fill('2026-05-29')
  await page.getByRole('button', { name: 'Enter the order' }).click()
  const order = page.getByRole('region', { name: 'Harbour shop' })
  await order.getByText('6 of 6 by the date').waitFor()
  expect(await page.locator('[aria-invalid="true"]').count()).toBe(0)

  const { orders } = await ask<{ orders: OrderRecord[] }>(server, '/api/studio/tables')
  expect(orders.filter(({ name }) => name === 'Harbour shop')).toMatchObject([
    { dueDate: '2026-05-29', lines: [{ designId: 'plate', glazeId: 'milk', count: 6 }] },
  ])
})
