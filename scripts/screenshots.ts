/**
 * Pictures from the example studio. `npm run screenshots -- DIR [ROOM]`: every room in both themes and three sizes, whole;
 * `npm run screenshots -- scripts/pictures readme`: those that README.md shows, of what fits on the screen.
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { Page } from 'playwright-core'
import { openBrowser } from '../test/support/chromium.ts'
import { startServer, untilPlanned } from '../test/support/ownServer.ts'

const [target = 'shots', only] = process.argv.slice(2)
const phone = { width: 390, height: 844 }
const tablet = { width: 820, height: 1180 }
const laptop = { width: 1440, height: 900 }
const rooms = { bench: '/', week: '/week', loads: '/loads', orders: '/orders' }
const inReadme = [
  { name: 'bench', viewport: phone, colorScheme: 'light' },
  { name: 'week', viewport: laptop, colorScheme: 'light' },
  { name: 'loads', viewport: tablet, colorScheme: 'dark', unfold: 'Show the shelves and the curve' },
] as const

mkdirSync(target, { recursive: true })
const folder = mkdtempSync(path.join(tmpdir(), 'wareboard-shots-'))
const server = await startServer(folder)
const browser = await openBrowser()
try {
  await take('welcome', '/', 'h1')
  await fetch(`${server.url}/api/example`, { method: 'POST' })
  await untilPlanned(server)
  if (only === 'readme') for (const picture of inReadme) await takeForReadme(picture)
  for (const [name, address] of Object.entries(rooms)) await take(name, address, 'main h1')
} finally {
  await browser.close()
  await server.end()
  rmSync(folder, { recursive: true, force: true })
}

async function take(name: string, address: string, shownWhen: string): Promise<void> {
  if (only && only !== name) return
  for (const viewport of [phone, tablet, laptop])
    for (const colorScheme of ['light', 'dark'] as const) {
      const page = await opened({ viewport, colorScheme }, address, shownWhen)
      const file = path.join(target, `${name}-${viewport.width}-${colorScheme}.png`)
      await page.screenshot({ path: file, fullPage: true })
      const widerBy = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
      console.log(widerBy > 0 ? `${file}: wider than the screen by ${widerBy} px` : file)
      await page.close()
    }
}

type Look = { readonly viewport: typeof phone; readonly colorScheme: 'light' | 'dark' }

async function takeForReadme({ name, unfold, ...look }: Look & { name: keyof typeof rooms; unfold?: string }) {
  const page = await opened(look, rooms[name], 'main h1')
  if (unfold) {
    const fold = page.locator('summary').filter({ hasText: unfold }).first()
    await fold.click()
    await fold.evaluate((summary) => summary.closest('article')!.scrollIntoView())
  }
  const file = path.join(target, `${name}.png`)
  await page.screenshot({ path: file })
  console.log(file)
  await page.close()
}

/** Rooms are loaded when entered: until nothing says that it is still opening. */
async function opened(look: Look, address: string, shownWhen: string): Promise<Page> {
  const page = await browser.newPage({ ...look, locale: 'en-GB' })
  await page.goto(`${server.url}${address}`)
  await page.locator(shownWhen).first().waitFor()
  await page.waitForFunction(() => !document.querySelector('.waiting'))
  return page
}
