import { once } from 'node:events'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { expect } from 'vitest'
import { journey } from './journey.ts'
import { logEnd } from './logbook.ts'

journey(
  'a page of another site can neither read the studio nor change it',
  async ({ server, browser, onTestFinished }) => {
    const before = await logEnd(server)
    const foreign = createServer((_, answer) => answer.setHeader('content-type', 'text/html').end('<h1>Elsewhere</h1>'))
    foreign.listen(0, '127.0.0.1')
    await once(foreign, 'listening')
    onTestFinished(() => void foreign.close())
    // Not one of the watched devices: what is refused here is complained of, and shall be.
    const page = await browser.newPage()
    onTestFinished(() => page.close())
    await page.goto(`http://localhost:${(foreign.address() as AddressInfo).port}/`)

    const answers = await page.evaluate(async (api) => {
      const outcomeOf = (call: Promise<Response>) => call.then(({ type }) => type).catch(({ name }: Error) => name)
      const entry = { method: 'POST', body: '[]', headers: { 'content-type': 'text/plain' } }
      return {
        read: await outcomeOf(fetch(`${api}/api/export`)),
        readBlind: await outcomeOf(fetch(`${api}/api/export`, { mode: 'no-cors' })),
        write: await outcomeOf(fetch(`${api}/api/orders/x`, { method: 'PUT', body: '{}' })),
        writeBlind: await outcomeOf(fetch(`${api}/api/log`, { ...entry, mode: 'no-cors' })),
      }
    }, server.url)
    // Its answers say that only pages of its own may have them (`Cross-Origin-Resource-Policy`), even unread.
    expect(answers).toEqual({ read: 'TypeError', readBlind: 'TypeError', write: 'TypeError', writeBlind: 'TypeError' })

    const submitted = page.waitForNavigation()
    await page.evaluate((api) => {
      document.body.innerHTML = `<form method="post" action="${api}/api/import?replace=yes" enctype="text/plain"><input name="a"></form>`
      document.querySelector('form')!.submit()
    }, server.url)
    expect((await submitted)?.status()).toBe(403)
    expect(await page.locator('body').textContent()).toContain('Pages of other sites may not change anything here.')
    expect(await logEnd(server)).toBe(before)
  },
)
