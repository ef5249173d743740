// Builds dist/web (the app in the browser) and dist/server (server, worker, command line), each only if what it is made of changed.
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { onlyOne } from './onlyOne.mjs'

process.chdir(path.resolve(import.meta.dirname, '..'))

const shared = ['package.json', 'package-lock.json', 'src/contract', 'src/core', 'src/words']
const targets = [
  {
    folder: 'dist/server',
    config: 'vite.server.config.ts',
    madeOf: [...shared, 'src', 'db', 'vite.server.config.ts'],
    without: 'src/web',
  },
  {
    folder: 'dist/web',
    config: 'vite.config.ts',
    madeOf: [...shared, 'src/web', 'public', 'index.html', 'vite.config.ts'],
    needs: 'index.html',
  },
]

const stale = () =>
  targets.filter((target) => (!target.needs || existsSync(target.needs)) && builtFrom(target) !== fingerprintOf(target))

// Loaded only when there is something to build: it takes longer to load than all the rest to run.
if (stale().length > 0)
  await onlyOne('dist/.build-lock', async () => {
    const { build } = await import('vite')
    for (const target of stale()) await make(target, build)
  })

/** Built beside, then put in place: a server that runs from the old one never meets half a new one. */
async function make(target, build) {
  const startedMs = performance.now()
  const fingerprint = fingerprintOf(target)
  const beside = `${target.folder}.new`
  rmSync(beside, { recursive: true, force: true })
  await build({ configFile: target.config, logLevel: 'warn', build: { outDir: beside } })
  writeFileSync(path.join(beside, '.built-from'), fingerprint)
  rmSync(target.folder, { recursive: true, force: true })
  mkdirSync(path.dirname(target.folder), { recursive: true })
  renameSync(beside, target.folder)
  console.error(`Built ${target.folder} in ${((performance.now() - startedMs) / 1000).toFixed(1)} s`)
}

function builtFrom({ folder }) {
  const file = path.join(folder, '.built-from')
  return existsSync(file) ? readFileSync(file, 'utf8') : undefined
}

/** Names, sizes and times of all files it is made of: a file that went away counts too, which the newest time would not show. */
function fingerprintOf({ madeOf, without }) {
  const hash = createHash('sha256')
  const add = (file) => {
    if (file === without || !existsSync(file)) return
    const { size, mtimeMs } = statSync(file)
    if (statSync(file).isDirectory()) for (const name of readdirSync(file).toSorted()) add(`${file}/${name}`)
    else hash.update(`${file} ${size} ${mtimeMs}\n`)
  }
  for (const file of madeOf) add(file)
  return hash.digest('hex')
}
