import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { goTo, journey } from './journey.ts'
import { entriesAfter, kindsAfter, logEnd } from './logbook.ts'

const plates = (page: Page) => page.getByRole('article').filter({ hasText: '8 Side plates' }).first()
const planters = (page: Page) => page.getByRole('article').filter({ hasText: '6 Windowsill planters' }).first()
const noted = 'noted, the plan follows'
const banner = (page: Page) => page.getByText('No connection to the studio’s computer.')

journey(
  'two tabs keep in step, and what both do without a network arrives once',
  async ({ ownServer: server, openDevice }) => {
    const device = await openDevice({ size: 'phone' })
    const [one, other] = [await device.newPage(), await device.newPage()]
    for (const page of [one, other]) await goTo(page, server, '/')
    const before = await logEnd(server)

    await one
      .getByRole('article')
      .filter({ hasText: /\d+ Soap dishes, Milk/ })
      .getByRole('button', { name: /^Done, all/ })
      .click()
    await other
      .getByText(/Wax and glaze: \d+ Soap dishes, Milk/)
      .or(other.getByText(noted))
      .first()
      .waitFor()
    await expect.poll(() => kindsAfter(server, before)).toEqual(['glazed'])

    await device.setOffline(true)
    await plates(one).getByRole('button', { name: /^Done/ }).click()
    await planters(other).getByRole('button', { name: /^Done/ }).click()
    for (const page of [one, other])
      for (const card of [plates(page), planters(page)]) await card.getByText(noted).waitFor()
    expect(await kindsAfter(server, before)).toEqual(['glazed'])

    await device.setOffline(false)
    await expect.poll(() => kindsAfter(server, before), { timeout: 20_000 }).toEqual(['glazed', 'covered', 'covered'])
    const ids = (await entriesAfter(server, before)).map(({ id }) => id)
    expect(new Set(ids).size).toBe(3)
    for (const page of [one, other]) await plates(page).getByText(noted).waitFor({ state: 'detached' })
  },
)

journey(
  'taps are kept while the server is gone, also when the page is closed, and arrive after',
  async ({ ownServer: server, openDevice }) => {
    const device = await openDevice({ size: 'tablet' })
    const page = await device.newPage()
    await goTo(page, server, '/')
    const before = await logEnd(server)
    await server.end('SIGKILL')
    await banner(page).waitFor()
    const trays = page.getByRole('article').filter({ hasText: '8 Tea trays' }).first()
    await trays.getByRole('button', { name: 'More…' }).click()
    await trays.getByRole('button', { name: 'Just right', exact: true }).click()
    await page.getByText('(1 waiting)').waitFor()
    await trays.getByRole('button', { name: /^Not yet/ }).click()
    await page.getByText('(2 waiting)').waitFor()
    await page.close()

    await server.startAgain()
    const again = await device.newPage()
    await goTo(again, server, '/')
    await expect.poll(() => kindsAfter(server, before), { timeout: 20_000 }).toEqual(['felt', 'felt', 'covered'])
    await again.waitForTimeout(3_000)
    expect(await kindsAfter(server, before)).toHaveLength(3)
  },
)

journey('a page that stays open finds the server again by itself', async ({ ownServer: server, open }) => {
  const page = await open(server, '/')
  const before = await logEnd(server)
  await server.end('SIGKILL')
  await banner(page).waitFor()
  await page.getByRole('article').getByRole('button').first().click()
  const answered = page.getByText(noted)
  await answered.waitFor()
  await server.startAgain()
  await banner(page).waitFor({ state: 'detached' })
  await expect.poll(() => logEnd(server), { timeout: 20_000 }).toBeGreaterThan(before)
  await answered.waitFor({ state: 'detached' })
})
