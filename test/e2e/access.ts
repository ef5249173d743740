/** Whether a page can be seen, heard and tapped by everybody, as far as a program can tell. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { AxeResults, RunOptions } from 'axe-core'
import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { sizes } from './journey.ts'

/** The checker as text: the pages allow no scripts but their own, and this is put in from outside. */
const checker = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

declare const axe: { run: (options: RunOptions) => Promise<AxeResults> }

/** In three sizes and both themes, with everything unfolded: fits across, and nothing serious or critical is found. */
export async function expectAccess(page: Page): Promise<void> {
  await page.evaluate(() => document.querySelectorAll('details').forEach((folded) => (folded.open = true)))
  await page.evaluate(checker)
  for (const [name, size] of Object.entries(sizes)) {
    await page.setViewportSize(size)
    const where = `${page.url()} at ${name}`
    expect
      .soft(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), where)
      .toBeLessThanOrEqual(0)
    await page.emulateMedia({ colorScheme: 'light' })
    expect.soft(await breaches(page, {}), where).toEqual([])
    await page.emulateMedia({ colorScheme: 'dark' })
    expect.soft(await breaches(page, { runOnly: ['color-contrast'] }), `${where}, dark`).toEqual([])
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
