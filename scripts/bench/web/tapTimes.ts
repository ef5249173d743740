/** How long a tap on the Bench waits for its answer on the screen. */
import type { Browser, Page } from 'playwright-core'
import { untilPlanned } from '../../../test/support/ownServer.ts'
import { withPage, withServer } from './device.ts'

const phone = { width: 390, height: 844 }
/** Phones that have just opened the page, so that the first taps, which are the slowest, weigh as they do in life. */
const phoneCount = 3
const tapsOfEach = 6
/** So long after a plan is made it is on the screen. */
const planShownMs = 700
const answeredWithinMs = 10_000

/** @returns for each tap ms from the finger's leaving the glass to the picture in which its card says that it is done */
export const tapTimesMs = (browser: Browser, slowDown: number): Promise<number[]> =>
  withServer(null, async (maker, prepared) => {
    await fetch(`${maker.url}/api/example`, { method: 'POST' })
    await untilPlanned(maker)
    await maker.end()
    const times: number[] = []
    for (let phones = 0; phones < phoneCount; phones++)
      await withServer(prepared, (server) =>
        withPage(browser, phone, async (page, device) => {
          await page.goto(server.url)
          await page.locator('article .button.main').first().waitFor()
          const devTools = await device.newCDPSession(page)
          await devTools.send('Emulation.setCPUThrottlingRate', { rate: slowDown })
          for (let taps = 0; taps < tapsOfEach; taps++) {
            // Plans are made on this machine, but not on a phone: they would take its processor.
            await untilPlanned(server)
            await page.waitForTimeout(planShownMs)
            times.push(await tapMs(page))
          }
        }),
      )
    return times
  })

/** Taps the likeliest answer of the first card that is not done. */
async function tapMs(page: Page): Promise<number> {
  const { x, y } = await page.locator('article[data-done="false"] .button.main').first().evaluate(watch)
  await page.touchscreen.tap(x, y)
  return page.evaluate(
    (limitMs) =>
      Promise.race([
        (globalThis as unknown as Watching).answeredMs,
        new Promise<never>((_, reject) => setTimeout(() => reject(new Error('A tap was not answered')), limitMs)),
      ]),
    answeredWithinMs,
  )
}

type Watching = { answeredMs: Promise<number> }

/** Looks at each picture that follows the tap. @returns where to tap */
function watch(button: HTMLElement | SVGElement): { x: number; y: number } {
  const card = button.closest('article')!
  button.scrollIntoView({ block: 'center' })
  ;(globalThis as unknown as Watching).answeredMs = new Promise((resolve) => {
    const untilDrawn = ({ timeStamp }: Event) => {
      if (card.dataset['done'] !== 'true') return requestAnimationFrame(() => untilDrawn({ timeStamp } as Event))
      // A message is read after the picture that is being made.
      const drawn = new MessageChannel()
      drawn.port1.addEventListener('message', () => resolve(performance.now() - timeStamp), { once: true })
      drawn.port1.start()
      drawn.port2.postMessage(null)
      return undefined
    }
    const onTap = (event: Event) => requestAnimationFrame(() => untilDrawn(event))
    addEventListener('click', onTap, { capture: true, once: true })
  })
  const { x, y, width, height } = button.getBoundingClientRect()
  return { x: x + width / 2, y: y + height / 2 }
}
