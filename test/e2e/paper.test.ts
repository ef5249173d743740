import { expect } from 'vitest'
import { expectAccess } from './access.ts'
import { goTo, journey } from './journey.ts'

journey('what is printed is on the page, and nothing that stands round it', async ({ server, open }) => {
  const page = await open(server, '/loads')
  await page.getByRole('link', { name: 'Load sheet' }).first().click()
  await page.getByRole('heading', { name: 'Put in, from the floor up' }).waitFor()
  await expectAccess(page)
  for (const address of [page.url().slice(server.url.length), '/week?print', '/week?labels']) {
    await goTo(page, server, address)
    await page.emulateMedia({ media: 'print' })
    expect(await page.getByRole('banner').isVisible(), address).toBe(false)
    expect(await page.getByRole('button', { name: 'Print this' }).isVisible(), address).toBe(false)
    expect(await page.getByRole('heading', { level: 1 }).isVisible(), address).toBe(true)
    await page.emulateMedia({ media: 'screen' })
  }
  // The last is the labels: each has a square that opens its run.
  const [square] = await page.getByRole('img', { name: /^Opens / }).all()
  const target = (await square!.getAttribute('aria-label'))!.slice('Opens '.length)
  await goTo(page, server, target.slice(server.url.length))
  await page.getByRole('link', { name: 'Log on the bench' }).waitFor()
})
