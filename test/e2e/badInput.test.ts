/** Whatever is typed into the rooms' fields: what cannot be read is said beside the field, and nothing typed is lost. */
import type { Locator } from 'playwright-core'
import { expect } from 'vitest'
import { ask } from '../support/ownServer.ts'
import { journey } from './journey.ts'
import { logEnd } from './logbook.ts'

const noNumbers = ['', 'twelve', '-3', '1e3', '0x10', '2,232', '1/0', '9'.repeat(400), '<b>3</b>', '٣']

/** Each of the values in each number of a form: refused in place, kept as typed. */
async function expectRefused(form: Locator, send: string): Promise<void> {
  const fields = form.locator('input[inputmode]')
  const count = await fields.count()
  expect(count).toBeGreaterThan(0)
  for (const value of noNumbers) {
    for (let i = 0; i < count; i++) await fields.nth(i).fill(value)
    await form.getByRole('button', { name: send, exact: true }).click()
    for (let i = 0; i < count; i++) {
      const field = fields.nth(i)
      await expect.poll(() => field.getAttribute('aria-invalid'), { message: `“${value}” in ${send}` }).toBe('true')
      const faultId = await field.getAttribute('aria-describedby')
      expect((await form.locator(`[id="${faultId}"]`).innerText()).length).toBeGreaterThan(10)
      expect(await field.inputValue()).toBe(value)
    }
  }
}

journey('the first questions say what cannot be read, field by field', async ({ emptyServer, open }) => {
  const page = await open(emptyServer, '/', { size: 'phone', provokes: /status of 422/ })
  const form = page.locator('form')
  await form.getByLabel('Your name').fill('Ines')
  await expectRefused(form, 'Make my first plan')
  expect(await form.getByLabel('Your name').inputValue()).toBe('Ines')
})

journey('orders, deliveries and counts take no nonsense', async ({ server, open }) => {
  const page = await open(server, '/orders')
  const orders = async () => (await ask<{ orders: unknown[] }>(server, '/api/studio/tables')).orders.length
  const [before, logged] = [await orders(), await logEnd(server)]
  const form = page.locator('form').filter({ hasText: 'Enter an order' })
  await form.getByLabel('For whom or what').fill('x'.repeat(5_000))
  await expectRefused(form, 'Enter the order')
  await expectRefused(form, 'When could it be ready?')
  expect(await form.getByLabel('For whom or what').inputValue()).toHaveLength(5_000)
  await form.getByText('letters or fewer').waitFor()

  await page.getByRole('button', { name: 'Other ware stands there too' }).click()
  await expectRefused(page.getByRole('region', { name: 'On the shelf' }), 'Put it on the shelf')
  expect([await orders(), await logEnd(server)]).toEqual([before, logged])
})

journey('a kiln is neither sorted nor read by what is no number', async ({ ownServer, open }) => {
  const page = await open(ownServer, '/loads', { size: 'tablet' })
  const load = page.getByRole('article').filter({ hasText: 'Bisque in Round kiln' }).first()
  await load.getByText('Log a temperature').click()
  const before = await logEnd(ownServer)
  for (const send of ['Log the temperature', 'Log the meter'])
    await expectRefused(load.locator('form').filter({ hasText: send }), send)
  expect(await logEnd(ownServer)).toBe(before)

  await load.getByRole('button', { name: 'Opened' }).click()
  const sorting = load.locator('form.sort')
  await sorting.waitFor()
  const opened = await logEnd(ownServer)
  await expectRefused(sorting, 'Keep the sorting')
  expect(await logEnd(ownServer)).toBe(opened)
})
