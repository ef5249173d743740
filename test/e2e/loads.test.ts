import { expect } from 'vitest'
import { journey } from './journey.ts'
import { entriesAfter, kindsAfter, logEnd } from './logbook.ts'

journey('a load is looked at, shelf by shelf', async ({ server, open }) => {
  const page = await open(server, '/loads')
  await page.getByText(/^Later \(\d+\)$/).click()
  const load = page.getByRole('article').filter({ hasText: 'Glaze in Square kiln' }).first()
  await load.getByText('Show the shelves and the curve').click()
  const shelf = load.getByRole('img', { name: 'Shelf 1 from above' })
  await shelf.waitFor()
  expect(await shelf.locator('.load-piece').count()).toBeGreaterThan(0)
  await load.getByRole('img', { name: 'The stack from the side' }).waitFor()
  await load.getByRole('img', { name: /^Firing curve, up to 1[0-9]{3}/ }).waitFor()
})

journey('a kiln is opened and sorted; nothing is kept until it adds up', async ({ server, open }) => {
  const page = await open(server, '/loads', { size: 'phone' })
  const before = await logEnd(server)
  const load = page.getByRole('article').filter({ hasText: 'Bisque in Round kiln' }).first()
  await load.getByRole('button', { name: 'Opened' }).click()
  const trays = load.getByRole('group', { name: '8 Tea tray' })
  await trays.getByLabel('Good').fill('6')
  await load.getByRole('button', { name: 'Keep the sorting' }).click()
  await trays.getByRole('alert').filter({ hasText: '2 are still to be told' }).waitFor()

  await trays.getByLabel('Seconds').fill('1')
  await trays.getByLabel('Lost').fill('1')
  await trays.getByLabel('Why').selectOption({ index: 1 })
  await load.getByRole('button', { name: 'Keep the sorting' }).click()
  await expect.poll(() => kindsAfter(server, before)).toEqual(['opened', 'unloaded'])
  const [, unloaded] = await entriesAfter(server, before)
  expect(unloaded?.body).toMatchObject({ sorted: [{ count: 8, good: 6, second: 1, refire: 0, lost: 1 }, { good: 6 }] })
  await page.getByRole('heading', { name: 'Sort what came out' }).waitFor({ state: 'detached' })
})
