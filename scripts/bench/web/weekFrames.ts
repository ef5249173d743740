/** How long the Week of a large studio stands still while it is used. */
import type { Browser, Locator, Page } from 'playwright-core'
import { writeStudioFile } from '#app/studio/writeStudioFile.ts'
import { untilPlanned } from '../../../test/support/ownServer.ts'
import { busyStudioFile } from './busyStudio.ts'
import { today, withPage, withServer } from './device.ts'

const laptop = { width: 1440, height: 900 }
/** Of eight runs each. */
const copyCount = 15
/** A picture that is late because something else took the machine is not late again. */
const roundCount = 3
const betweenActsMs = 300
/** As often as a screen shows a new picture. */
const pictureMs = 16

export type WeekFrames = { readonly runCount: number; readonly longestMs: ReadonlyMap<string, number> }

/** @returns for each thing that is done the longest wait from one picture to the next, the median of a few rounds, ms */
export const weekFrames = (browser: Browser): Promise<WeekFrames> =>
  withServer(null, async (server) => {
    await fetch(`${server.url}/api/import`, { method: 'POST', body: writeStudioFile(busyStudioFile(today, copyCount)) })
    const { runs } = await untilPlanned(server)
    const seen = new Map<string, number[]>()
    for (let rounds = 0; rounds < roundCount; rounds++)
      await withPage(browser, laptop, async (page) => {
        await page.goto(server.url)
        await page.locator('article').first().waitFor()
        await page.evaluate(watchPictures)
        for (const { name, at, act } of acts(page)) {
          const spot = at && (await middleOf(at()))
          await page.waitForTimeout(betweenActsMs)
          await page.evaluate(() => void ((globalThis as unknown as Watching).gapsMs.length = 0))
          await act(spot ?? { x: 0, y: 0 })
          await page.waitForTimeout(betweenActsMs)
          const longest = await page.evaluate(() => Math.max(...(globalThis as unknown as Watching).gapsMs))
          seen.set(name, [...(seen.get(name) ?? []), longest])
        }
      })
    return { runCount: runs.length, longestMs: new Map([...seen].map(([name, times]) => [name, median(times)])) }
  })

type Spot = { readonly x: number; readonly y: number }
/** Only keys and the pointer are used while pictures are timed: to look for something in the page takes the page's time. */
type Act = { readonly name: string; readonly at?: () => Locator; readonly act: (spot: Spot) => Promise<void> }

/** In this order each finds the page as the one before left it. */
function acts(page: Page): Act[] {
  const board = () => page.locator('.week-board')
  const click = (name: string, at: () => Locator): Act => ({ name, at, act: ({ x, y }) => page.mouse.click(x, y) })
  const button = (text: string) => () => page.getByRole('button', { name: text })
  const wheel = (name: string, at: () => Locator, byX: number, byY: number): Act => ({
    name,
    at,
    act: async ({ x, y }) => {
      await page.mouse.move(x, y)
      await often(() => page.mouse.wheel(byX, byY))
    },
  })
  const often = async (act: (time: number) => Promise<void>) => {
    for (let times = 0; times < 30; times++) {
      await act(times)
      await page.waitForTimeout(pictureMs)
    }
  }
  const days = (key: string, name: string): Act => ({
    name,
    at: () => page.getByLabel('Days shown'),
    act: () => page.keyboard.press(key),
  })
  const lists = () => page.locator('details.week-air > summary')
  const why = (place: number) => click(`open why ${place}`, () => page.locator('.week-task summary').nth(place))
  return [
    {
      name: 'enter from the Bench',
      at: () => page.getByRole('link', { name: 'Week' }),
      act: async ({ x, y }) => {
        await page.mouse.click(x, y)
        await board().waitFor()
      },
    },
    wheel('scroll down the lanes', board, 0, 120),
    wheel('scroll along the lanes', board, 90, 0),
    wheel('scroll up the lanes', board, 0, -120),
    wheel('scroll back along the lanes', board, -90, 0),
    click('to later days', button('Later')),
    click('to earlier days', button('Earlier')),
    days('Home', 'one day'),
    days('End', 'seven days'),
    click('open the list of lanes', () => lists().last()),
    click('close the list of lanes', () => lists().last()),
    ...Array.from({ length: 12 }, (_, i) => click(`show more sessions, time ${i + 1}`, button('Show more sessions'))),
    why(2),
    why(40),
    wheel('scroll the page', () => page.getByRole('heading', { name: 'Sessions' }), 0, 240),
    click('to later days with many sessions shown', button('Later')),
    click('back from there', button('Earlier')),
    click('take a step up', () => page.getByRole('button', { name: /^Move:/ }).first()),
    { name: 'move it by keys', act: () => often(() => page.keyboard.press('ArrowRight')) },
    { name: 'leave it', act: () => page.keyboard.press('Escape') },
    {
      name: 'drag a step',
      at: () => page.locator('.lanes-grip').first(),
      act: async ({ x, y }) => {
        await page.mouse.move(x, y)
        await page.mouse.down()
        await often((time) => page.mouse.move(x + 4 * time, y + (time % 8)))
        await page.mouse.up()
      },
    },
  ]
}

/** Brings it in sight, and the keyboard to it. */
async function middleOf(at: Locator): Promise<Spot> {
  await at.waitFor()
  await at.scrollIntoViewIfNeeded()
  await at.focus()
  const { x, y, width, height } = (await at.boundingBox())!
  return { x: x + width / 2, y: y + height / 2 }
}

type Watching = { gapsMs: number[] }

function watchPictures(): void {
  const gapsMs: number[] = []
  let lastMs = performance.now()
  const look = (nowMs: number) => {
    gapsMs.push(nowMs - lastMs)
    lastMs = nowMs
    requestAnimationFrame(look)
  }
  ;(globalThis as unknown as Watching).gapsMs = gapsMs
  requestAnimationFrame(look)
}

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!
