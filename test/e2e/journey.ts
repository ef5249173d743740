/* oxlint-disable no-empty-pattern -- the test runner reads from the pattern what a fixture needs */
/** What a journey through the app is given: a server of its own, and devices with pages that are watched. */
import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { BrowserContext, Page } from 'playwright-core'
import { test as plainTest } from 'vitest'
import { writeStudioFile } from '#app/studio/writeStudioFile.ts'
import { exampleStudioFile } from '#db/seed/exampleStudio.ts'
import { openBrowser } from '../support/chromium.ts'
import { clockScript } from '../support/clock.ts'
import { type OwnServer, startServer, untilPlanned } from '../support/ownServer.ts'

/** Every journey begins on the same Monday, at nine in the morning in the studio. */
const today = '2026-03-02'
const aheadMs = Date.parse(`${today}T09:00:00Z`) - Date.now()
/** So few that a plan is made in a second or two. */
const orderCount = 4

export const sizes = {
  phone: { width: 390, height: 844 },
  tablet: { width: 820, height: 1180 },
  laptop: { width: 1440, height: 900 },
} as const
type Look = {
  readonly size?: keyof typeof sizes
  readonly colorScheme?: 'light' | 'dark'
  /** What the browser will complain of because the journey asks for it. */
  readonly provokes?: RegExp
}

/** Of what the browser complains though the page cannot help it: a server that was ended, a studio that is not there yet. */
const beyondThePage = /net::ERR_|status of 404/

export const journey = plainTest
  .extend('browser', { scope: 'worker' }, async ({}, { onCleanup }) => {
    const browser = await openBrowser()
    onCleanup(() => browser.close())
    return browser
  })
  // Folders to copy, which is quicker than to make them: one without a studio, one with a small studio and its first plan.
  .extend('prepared', { scope: 'worker' }, async ({}, { onCleanup }) => {
    const place = newFolder()
    onCleanup(() => remove(place))
    const [empty, small] = [path.join(place, 'empty'), path.join(place, 'small')]
    const server = await startServer(small, aheadMs)
    await server.end()
    cpSync(small, empty, { recursive: true })
    await server.startAgain()
    await fetch(`${server.url}/api/import`, { method: 'POST', body: writeStudioFile(smallStudio()) })
    await untilPlanned(server)
    await server.end()
    return { empty, small }
  })
  .extend('emptyServer', { scope: 'file' }, async ({ prepared }, { onCleanup }) =>
    serverOnCopy(prepared.empty, onCleanup),
  )
  // For journeys that look, or touch what no other touches.
  .extend('server', { scope: 'worker' }, async ({ prepared }, { onCleanup }) => serverOnCopy(prepared.small, onCleanup))
  // For all journeys of one file, which may count on what they did before.
  .extend('ownServer', { scope: 'file' }, async ({ prepared }, { onCleanup }) =>
    serverOnCopy(prepared.small, onCleanup),
  )
  // A phone, tablet or laptop: it shares nothing with others. Whatever its pages complain of fails the journey.
  .extend('openDevice', async ({ browser }, { onCleanup }) => {
    const devices: BrowserContext[] = []
    const complaints: string[] = []
    onCleanup(async () => {
      for (const device of devices) await device.close()
      if (complaints.length > 0) throw new Error(`The pages complained:\n${complaints.join('\n')}`)
    })
    return async ({
      size = 'laptop',
      colorScheme = 'light',
      provokes = beyondThePage,
    }: Look = {}): Promise<BrowserContext> => {
      const device = await browser.newContext({
        viewport: sizes[size],
        colorScheme,
        locale: 'en-GB',
        timezoneId: 'Europe/London',
        hasTouch: size !== 'laptop',
      })
      devices.push(device)
      await device.addInitScript(clockScript(aheadMs))
      device.on('weberror', (error) => complaints.push(String(error.error())))
      device.on('console', (message) => {
        const text = message.text()
        if (['error', 'warning'].includes(message.type()) && !beyondThePage.test(text) && !provokes.test(text))
          complaints.push(text)
      })
      return device
    }
  })
  .extend('open', async ({ openDevice }) => async (server: OwnServer, address: string, look?: Look): Promise<Page> => {
    const page = await (await openDevice(look)).newPage()
    await goTo(page, server, address)
    return page
  })

/** Rooms are loaded when they are entered: until nothing says that it is still opening. */
export async function goTo(page: Page, { url }: OwnServer, address: string): Promise<void> {
  await page.goto(`${url}${address}`)
  await page.locator('main h1').waitFor()
  await page.waitForFunction(() => !document.querySelector('.waiting'))
}

function smallStudio() {
  const file = exampleStudioFile(today)
  return { ...file, orders: file.orders.filter(({ kind }) => kind !== 'stock').slice(0, orderCount), stock: [] }
}

const newFolder = (): string => mkdtempSync(path.join(tmpdir(), 'wareboard-journey-'))
const remove = (folder: string): void => rmSync(folder, { recursive: true, force: true })

async function serverOnCopy(prepared: string, onCleanup: (clean: () => Promise<void>) => void): Promise<OwnServer> {
  const folder = newFolder()
  cpSync(prepared, folder, { recursive: true })
  const server = await startServer(folder, aheadMs)
  // It has its plan; to look for a better one would take the machine from the journey.
  await fetch(`${server.url}/api/plan/stop`, { method: 'POST' })
  onCleanup(async () => {
    await server.end()
    remove(folder)
  })
  return server
}
