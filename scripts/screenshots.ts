/** Pictures of every room in both themes and three sizes, from the example studio: `npm run screenshots -- DIR`. */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { Page } from 'playwright-core'
import { openBrowser } from '../test/support/chromium.ts'
import { startServer, untilPlanned } from '../test/support/ownServer.ts'

const [target = 'shots', only] = process.argv.slice(2)
const sizes = [
  { width: 390, height: 844 },
  { width: 820, height: 1180 },
  { width: 1440, height: 900 },
]
const rooms = { bench: '/', week: '/week', loads: '/loads', orders: '/orders' }

mkdirSync(target, { recursive: true })
const folder = mkdtempSync(path.join(tmpdir(), 'wareboard-shots-'))
const server = await startServer(folder)
const browser = await openBrowser()
try {
  await take('welcome', '/', 'h1')
  await fetch(`${server.url}/api/example`, { method: 'POST' })
  await untilPlanned(server)
  for (const [name, address] of Object.entries(rooms)) await take(name, address, 'main h1')
} finally {
  await browser.close()
  await server.end()
  rmSync(folder, { recursive: true, force: true })
}

async function take(name: string, address: string, shownWhen: string): Promise<void> {
  if (only && only !== name) return
  for (const viewport of sizes)
    for (const colorScheme of ['light', 'dark'] as const) {
      const page = await browser.newPage({ viewport, colorScheme, locale: 'en-GB' })
      await page.goto(`${server.url}${address}`)
      await page.locator(shownWhen).first().waitFor()
      await settled(page)
      const file = path.join(target, `${name}-${viewport.width}-${colorScheme}.png`)
      await page.screenshot({ path: file, fullPage: true })
      const widerBy = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
      console.log(widerBy > 0 ? `${file}: wider than the screen by ${widerBy} px` : file)
      await page.close()
    }
}

/** Rooms are loaded when entered: until nothing says that it is still opening. */
async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => !document.querySelector('.waiting'))
}
