/** A page of the app on a device of its own, in front of a server of its own, on a fixed morning. */
import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { clockScript } from '../../../test/support/clock.ts'
import { type OwnServer, startServer } from '../../../test/support/ownServer.ts'

/** A Monday with work for hands; nine in the morning in the example's zone. */
export const today = '2026-03-02'
const aheadMs = Date.parse(`${today}T09:00:00Z`) - Date.now()

/** What is made of a studio is done on a copy of its folder, so that each begins alike. */
export async function withServer<Result>(
  prepared: string | null,
  then: (server: OwnServer, folder: string) => Promise<Result>,
): Promise<Result> {
  const folder = mkdtempSync(path.join(tmpdir(), 'wareboard-bench-'))
  if (prepared) cpSync(prepared, folder, { recursive: true })
  const server = await startServer(folder, aheadMs)
  try {
    return await then(server, folder)
  } finally {
    await server.end()
    rmSync(folder, { recursive: true, force: true })
  }
}

type Size = { readonly width: number; readonly height: number }

/** Nothing of what the browser kept or compiled for another is there. */
export async function withPage<Result>(
  browser: Browser,
  viewport: Size,
  then: (page: Page, device: BrowserContext) => Promise<Result>,
): Promise<Result> {
  const device = await browser.newContext({ viewport, locale: 'en-GB', hasTouch: true })
  try {
    await device.addInitScript(clockScript(aheadMs))
    // The runner of these scripts marks functions with their names, also those that are handed to the page.
    await device.addInitScript('globalThis.__name = (named) => named')
    return await then(await device.newPage(), device)
  } finally {
    await device.close()
  }
}
