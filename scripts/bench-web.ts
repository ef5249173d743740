/** How heavy and how quick the app is in a real browser, held to bars: `npm run bench:web`. Exits with 1 if one is missed. */
import { readdirSync, readFileSync } from 'node:fs'
import { availableParallelism, loadavg } from 'node:os'
import path from 'node:path'
import { gzipSync } from 'node:zlib'
import type { Browser } from 'playwright-core'
import { openBrowser } from '../test/support/chromium.ts'
import { untilPlanned } from '../test/support/ownServer.ts'
import { withPage, withServer } from './bench/web/device.ts'
import { tapTimesMs } from './bench/web/tapTimes.ts'
import { weekFrames } from './bench/web/weekFrames.ts'

/**
 * Bars of the project: what a phone on bad Wi-Fi loads, and what a person takes for at once.
 * @see Web Vitals, Interaction to Next Paint and Long Animation Frames (50 ms): common practice
 */
const mostScriptKb = 150
const mostMedianTapMs = 80
const mostTapMs = 100
const mostFrameMs = 50
const slowDown = 4
const leastRuns = 120

const browser = await openBrowser()
try {
  const scriptBytes = await scriptBytesOfBench(browser)
  const taps = (await tapTimesMs(browser, slowDown)).toSorted((a, b) => a - b)
  const { runCount, longestMs } = await weekFrames(browser)
  const slowest = [...longestMs].toSorted(([, a], [, b]) => b - a)
  const tap = `a tap on the Bench answered on screen, processor ${slowDown} times slower`
  const passed = [
    told('JavaScript that the Bench loads, gzipped, kB', scriptBytes / 1_000, mostScriptKb),
    told(`Half of ${taps.length}: ${tap}, ms`, shareOf(taps, 0.5), mostMedianTapMs),
    told(`19 in 20: ${tap}, ms`, shareOf(taps, 0.95), mostTapMs),
    told(`Longest wait for a picture in the Week of ${runCount} runs, ms`, slowest[0]![1], mostFrameMs),
  ]
  for (const [name, ms] of slowest.slice(0, 5)) console.log(`      ${ms.toFixed(1)} ms: ${name}`)
  const busy = loadavg()[0]! / availableParallelism()
  if (busy > 1)
    console.log(`      Processors were asked for ${busy.toFixed(1)} times what they can: times are too long by that.`)
  if (runCount < leastRuns) throw new Error(`The large studio has only ${runCount} runs`)
  if (passed.includes(false)) process.exitCode = 1
} finally {
  await browser.close()
}

/** All that the page has loaded by the time its first card can be tapped. */
async function scriptBytesOfBench(browser: Browser): Promise<number> {
  return withServer(null, async (server) => {
    await fetch(`${server.url}/api/example`, { method: 'POST' })
    await untilPlanned(server)
    return withPage(browser, { width: 390, height: 844 }, async (page) => {
      const loaded: string[] = []
      page.on('response', (answer) => void (answer.url().endsWith('.js') && loaded.push(path.basename(answer.url()))))
      await page.goto(server.url)
      await page.locator('article .button.main').first().waitFor()
      return loaded.reduce((sum, name) => sum + gzippedBytes(name), 0)
    })
  })
}

function gzippedBytes(name: string): number {
  const assets = path.resolve(import.meta.dirname, '../dist/web/assets')
  return readdirSync(assets).includes(name) ? gzipSync(readFileSync(path.join(assets, name))).length : 0
}

function shareOf(sorted: readonly number[], share: number): number {
  return sorted[Math.ceil(share * sorted.length) - 1]!
}

function told(what: string, value: number, most: number): boolean {
  const passed = Math.round(value) <= most
  console.log(`${passed ? 'pass' : 'FAIL'}  ${what}: ${value.toFixed(1)}, at most ${most}`)
  return passed
}
