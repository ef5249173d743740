/** A real browser without a window: the one that `CHROMIUM` names, or the packaged one, unpacked once for each version. */
import { createReadStream, createWriteStream, existsSync, readFileSync, renameSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { pipeline } from 'node:stream/promises'
import { createBrotliDecompress } from 'node:zlib'
import { type Browser, chromium } from 'playwright-core'

const require = createRequire(import.meta.url)

const args = [
  '--no-sandbox',
  '--disable-gpu',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
]

export const openBrowser = async (): Promise<Browser> =>
  chromium.launch({ executablePath: await chromiumPath(), args, chromiumSandbox: false })

async function chromiumPath(): Promise<string> {
  const { CHROMIUM } = process.env
  if (CHROMIUM) return CHROMIUM
  const folder = path.resolve(path.dirname(require.resolve('@sparticuz/chromium')), '../..')
  const { version } = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8')) as { version: string }
  const unpacked = path.join(tmpdir(), `wareboard-chromium-${version}-${process.getuid?.() ?? 0}`)
  if (existsSync(unpacked)) return unpacked
  // Beside, then put in place: another process never meets half a file.
  const beside = `${unpacked}.${process.pid}`
  await pipeline(
    createReadStream(path.join(folder, 'bin/chromium.br')),
    createBrotliDecompress({ chunkSize: 1 << 21 }),
    createWriteStream(beside, { mode: 0o755 }),
  )
  renameSync(beside, unpacked)
  return unpacked
}
