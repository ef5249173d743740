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

journey('a date is asked for, taken, and the order entered with it', async ({ server, open }) => {
  const page = await open(server, '/orders')
  await page.getByLabel('For whom or what').fill('Lighthouse café')
  await page.getByLabel('Design').selectOption('Side plate')
  await page.getByLabel('How many').fill('4')
  await page.getByRole('button', { name: 'When could it be ready?' }).click()
  await page.getByText(/ can be promised: | is the surest there is, /).waitFor()
  await page.getByRole('button', { name: 'Take this date' }).click()
  const dueDate = await page.getByLabel('Due').inputValue()
  expect(dueDate > '2026-03-02').toBe(true)
  await page.getByRole('button', { name: 'Enter the order' }).click()
  const order = page.getByRole('region', { name: 'Lighthouse café' })
  await order.getByText('4 of 4 by the date').waitFor()
  await order.getByText('What it waits for').click()
  await order
    .getByText(/Side plates?.* into (the|\d+) glaze firing/)
    .first()
    .waitFor()

  const { orders } = await ask<{ orders: OrderRecord[] }>(server, '/api/studio/tables')
  expect(orders.filter(({ name }) => name === 'Lighthouse café')).toMatchObject([{ dueDate, lines: [{ count: 4 }] }])
})

journey('what is typed outlives the room; an order is amended, withdrawn and back', async ({ server, open }) => {
  const page = await open(server, '/orders', { size: 'tablet' })
  await page.getByLabel('Design').selectOption('Side plate')
  await page.getByRole('button', { name: 'When could it be ready?' }).click()
  await page.getByText('Say how many').waitFor()
  await page.getByLabel('How many').fill('2')
  // What was typed outlives the room.
  await page.getByRole('link', { name: 'Week' }).click()
  await page.getByRole('link', { name: 'Orders' }).click()
  expect(await page.getByLabel('How many').inputValue()).toBe('2')

  await page.getByLabel('Due').fill('2026-05-29')
  await page.getByLabel('For whom or what').fill('Ferry house')
  await page.getByRole('button', { name: 'Enter the order' }).click()
  const order = page.getByRole('region', { name: 'Ferry house' })
  await order.getByText('2 of 2 by the date').waitFor()

  await order.getByRole('button', { name: 'Amend' }).click()
  await order.getByLabel('How many').fill('0')
  await order.getByRole('button', { name: 'Keep the changes' }).click()
  await order.getByText('Say how many').waitFor()
  await order.getByLabel('How many').fill('3')
  await order.getByRole('button', { name: 'Keep the changes' }).click()
  await order.getByText('3 Side plates').first().waitFor()
  await order.getByRole('button', { name: 'Withdraw' }).click()
  await order.waitFor({ state: 'detached' })
  const said = page.locator('.toast').filter({ hasText: 'Withdrawn: Ferry house' })
  await said.getByRole('button', { name: 'Undo' }).click()
  await order.getByText('3 Side plates').first().waitFor()
})
