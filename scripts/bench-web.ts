/** How heavy and how quick the app is in a real browser, held to bars: `npm run bench:web`. Exits with 1 if one is missed. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { gzipSync } from 'node:zlib'
import { openBrowser } from '../test/support/chromium.ts'
import { startServer, untilPlanned } from '../test/support/ownServer.ts'

/** Bars of the project: what a phone on bad Wi-Fi loads, and what a person takes for at once. */
const mostScriptKb = 150
const mostTapMs = 100
const slowDown = 4

const folder = mkdtempSync(path.join(tmpdir(), 'wareboard-bench-'))
const server = await startServer(folder)
const browser = await openBrowser()
try {
  await fetch(`${server.url}/api/example`, { method: 'POST' })
  await untilPlanned(server)
  const page = await browser.newPage({ viewport: { width: 390, height: 844 }, locale: 'en-GB' })
  // The runner of these scripts marks functions with their names, also those that are handed to the page.
  await page.addInitScript('globalThis.__name = (named) => named')
  const loaded: string[] = []
  page.on('response', (answer) => void (answer.url().endsWith('.js') && loaded.push(path.basename(answer.url()))))
  await page.goto(server.url)
  const first = page.locator('article .button.main').first()
  await first.waitFor()
  const scriptKb = loaded.reduce((sum, name) => sum + gzippedBytes(name), 0) / 1_000
  const isLight = told('JavaScript that the bench loads, gzipped, kB', scriptKb, mostScriptKb)

  const devTools = await page.context().newCDPSession(page)
  await devTools.send('Emulation.setCPUThrottlingRate', { rate: slowDown })
  const tapMs = await first.evaluate(tappedMs)
  const isQuick = told(`A tap answered on screen with a processor ${slowDown} times slower, ms`, tapMs, mostTapMs)
  if (!isLight || !isQuick) process.exitCode = 1
} finally {
  await browser.close()
  await server.end()
  rmSync(folder, { recursive: true, force: true })
}

function gzippedBytes(name: string): number {
  const assets = path.resolve(import.meta.dirname, '../dist/web/assets')
  return readdirSync(assets).includes(name) ? gzipSync(readFileSync(path.join(assets, name))).length : 0
}

/** From the tap to the first picture after its card says that it is done. */
function tappedMs(button: HTMLElement | SVGElement): Promise<number> {
  return new Promise((resolve) => {
    const startedMs = performance.now()
    const look = () => {
      if (document.querySelector('article[data-done="true"]'))
        requestAnimationFrame(() => resolve(performance.now() - startedMs))
      else requestAnimationFrame(look)
    }
    ;(button as HTMLElement).click()
    look()
  })
}

function told(what: string, value: number, most: number): boolean {
  const passed = value <= most
  console.log(`${passed ? 'pass' : 'FAIL'}  ${what}: ${value.toFixed(1)}, at most ${most}`)
  return passed
}
