import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { goTo, journey, sizes } from './journey.ts'
import { entriesAfter, kindsAfter, logEnd } from './logbook.ts'

/** A tap is answered on screen within this. */
const atOnceMs = 1_000
/** What a wet finger hits, px. @see design rule of the bench; WCAG 2.2 AAA, 2.5.5 */
const leastTargetPx = 44
/** More than there is to tab through on the bench. */
const mostTabs = 120

const glazing = (page: Page) => page.getByRole('article').filter({ hasText: /\d+ Soap dishes, Milk/ })

journey(
  'a tap is answered at once, the plan follows, and undo brings the work back',
  async ({ ownServer: server, open }) => {
    const page = await open(server, '/', { size: 'phone' })
    const before = await logEnd(server)
    const startedMs = performance.now()
    await glazing(page)
      .getByRole('button', { name: /^Done, all \d+/ })
      .click()
    await glazing(page).getByText('noted, the plan follows').waitFor()
    expect(performance.now() - startedMs).toBeLessThan(atOnceMs)

    await glazing(page).waitFor({ state: 'detached' })
    expect(await kindsAfter(server, before)).toEqual(['glazed'])

    await page.getByRole('button', { name: /^Undo: Wax and glaze: \d+ Soap dishes/ }).click()
    await glazing(page)
      .getByRole('button', { name: /^Done, all \d+/ })
      .waitFor()
    expect(await kindsAfter(server, before)).toEqual(['glazed', 'corrected'])
  },
)

journey('the day is ticked off in the evening, with rough times', async ({ ownServer: server, open }) => {
  const page = await open(server, '/', { size: 'tablet' })
  const before = await logEnd(server)
  await page.getByRole('button', { name: 'Tick off the day' }).click()
  const list = page.getByRole('dialog', { name: 'What was done today?' })
  await list.getByRole('checkbox', { name: /^Look in: \d+ Side plates/ }).check()
  await list.getByRole('checkbox', { name: /^Wax and glaze: \d+ Soap dishes, Milk/ }).check()
  await list.getByRole('combobox', { name: /^When: Wax and glaze: \d+ Soap/ }).selectOption('this morning')
  await list.getByRole('button', { name: 'Log 2 things' }).click()
  await list.waitFor({ state: 'hidden' })

  await expect.poll(() => kindsAfter(server, before)).toEqual(['covered', 'glazed'])
  const [, glazed] = await entriesAfter(server, before)
  expect(glazed?.roughMin).toBe(120)
  await glazing(page).waitFor({ state: 'detached' })
})

journey(
  'whatever is tapped on the bench is large enough for a wet finger',
  async ({ ownServer: server, openDevice }) => {
    const page = await (await openDevice({ size: 'phone' })).newPage()
    await goTo(page, server, '/')
    await page.getByRole('button', { name: 'More…' }).first().click()
    await page.getByRole('group').filter({ hasText: 'Tomorrow' }).locator('summary').click()
    for (const size of Object.values(sizes)) {
      await page.setViewportSize(size)
      expect(await smallTargets(page), `${size.width} px`).toEqual([])
    }
  },
)

journey('everything on the bench can be done with the keyboard alone', async ({ ownServer: server, open }) => {
  const page = await open(server, '/')
  await page.keyboard.press('Tab')
  expect(await focused(page)).toBe('Skip to the room')
  expect(await page.getByRole('link', { name: 'Skip to the room' }).boundingBox()).toMatchObject({ y: 8 })
  await page.keyboard.press('Enter')
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('room')

  await tabTo(page, /^Done: /)
  expect(await focusIsSeen(page)).toBe(true)
  const before = await logEnd(server)
  await page.keyboard.press('Space')
  await page.getByText('noted, the plan follows').waitFor()
  await tabTo(page, /^Undo/)
  await page.keyboard.press('Enter')
  await expect.poll(() => kindsAfter(server, before)).toEqual(['covered', 'corrected'])

  await page.getByRole('link', { name: 'Bench' }).focus()
  await page.keyboard.press('Tab')
  expect(await focused(page)).toBe('Week')
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { name: 'Week', level: 1 }).waitFor()
})

async function smallTargets(page: Page): Promise<string[]> {
  return page.locator('a, button, summary, select, input').evaluateAll(
    (elements, least) =>
      elements
        .filter((element) => element.checkVisibility())
        .map((element) => ({ element, box: element.getBoundingClientRect() }))
        // What is out of sight until it has the focus is not tapped.
        .filter(({ box }) => box.bottom > 0 && Math.min(box.width, box.height) < least)
        .map(({ element, box }) => `${element.textContent || element.tagName}: ${box.width} × ${box.height}`),
    leastTargetPx,
  )
}

const focused = (page: Page): Promise<string> =>
  page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent ?? '')

async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let tabs = 0; tabs < mostTabs; tabs++) {
    await page.keyboard.press('Tab')
    if (name.test(await focused(page))) return
  }
  throw new Error(`${String(name)} was not reached`)
}

const focusIsSeen = (page: Page): Promise<boolean> =>
  page.evaluate(() => {
    const { outlineStyle, outlineWidth } = getComputedStyle(document.activeElement!)
    return outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2
  })
