import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { AxeResults, RunOptions } from 'axe-core'
import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import type { OwnServer } from '../support/ownServer.ts'
import { goTo, journey, sizes } from './journey.ts'

/** The checker as text: the pages allow no scripts but their own, and this is put in from outside. */
const checker = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

declare const axe: { run: (options: RunOptions) => Promise<AxeResults> }

journey('every room can be seen, heard and tapped, in both themes and three sizes', async ({ server, openDevice }) => {
  const page = await (await openDevice()).newPage()
  await goTo(page, server, '/')
  const rooms = await page.getByRole('navigation', { name: 'Rooms' }).getByRole('link').all()
  const addresses = await Promise.all(rooms.map((room) => room.getAttribute('href')))
  expect(addresses).toContain('/orders')
  for (const address of addresses) await look(page, server, address!)
})

journey('so can the first page', async ({ emptyServer, openDevice }) => {
  await look(await (await openDevice()).newPage(), emptyServer, '/')
})

async function look(page: Page, server: OwnServer, address: string): Promise<void> {
  await goTo(page, server, address)
  // What is folded away is looked at too.
  await page.evaluate(() => document.querySelectorAll('details').forEach((folded) => (folded.open = true)))
  await page.evaluate(checker)
  for (const [name, size] of Object.entries(sizes)) {
    await page.setViewportSize(size)
    const where = `${address} at ${name}`
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), where).toBeLessThanOrEqual(0)
    await page.emulateMedia({ colorScheme: 'light' })
    expect(await breaches(page, {}), where).toEqual([])
    await page.emulateMedia({ colorScheme: 'dark' })
    expect(await breaches(page, { runOnly: ['color-contrast'] }), `${where}, dark`).toEqual([])
  }
}

/** Serious and critical ones. @see Deque, axe-core's rules for WCAG 2.2 A and AA */
async function breaches(page: Page, options: RunOptions): Promise<string[]> {
  const { violations } = await page.evaluate((run) => axe.run(run), {
    resultTypes: ['violations'],
    ...options,
  } as RunOptions)
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) =>
      nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 120)} ${failureSummary}`),
    )
}
