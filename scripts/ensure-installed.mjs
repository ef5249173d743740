// Makes node_modules match package-lock.json; takes a few milliseconds when it already does. Needs nothing but Node.
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import path from 'node:path'
import { onlyOne } from './onlyOne.mjs'

const [major, minor] = process.versions.node.split('.').map(Number)
if (major < 20 || (major === 20 && minor < 19))
  fail(`Wareboard needs Node 20.19 or newer; this is ${process.versions.node}.`)

const root = path.resolve(import.meta.dirname, '..')
const tries = 3
/** The npm that runs us, if one does: it need not be the one on the path. */
const npm = process.env.npm_execpath?.endsWith('npm-cli.js')
  ? { command: process.execPath, args: [process.env.npm_execpath] }
  : { command: process.platform === 'win32' ? 'npm.cmd' : 'npm', args: [] }

if (!isInstalled()) {
  // Several commands may be started at once on a fresh clone: one installs, the others wait and find it done.
  await onlyOne(path.join(root, '.install-lock'), () => {
    if (!isInstalled()) install()
  })
}

/** npm writes node_modules/.package-lock.json last of all, so that it tells of finished installations only. */
function isInstalled() {
  const wanted = packagesIn('package-lock.json')
  const present = packagesIn('node_modules/.package-lock.json')
  if (!wanted || !present) return false
  // Optional packages are mostly those of other platforms.
  return Object.entries(wanted).every(
    ([name, { version, optional }]) => name === '' || optional || present[name]?.version === version,
  )
}

function packagesIn(file) {
  try {
    return JSON.parse(readFileSync(path.join(root, file), 'utf8')).packages
  } catch {
    return undefined
  }
}

function install() {
  for (let attempt = 1; attempt <= tries; attempt++) {
    console.error(attempt === 1 ? 'Installing packages …' : `Installing packages, try ${attempt} of ${tries} …`)
    const { status } = spawnSync(
      npm.command,
      [...npm.args, 'ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error'],
      {
        cwd: root,
        env: withoutNpmSettings(process.env),
        stdio: ['ignore', 2, 2],
      },
    )
    if (status === 0 && isInstalled()) return
  }
  fail('The packages could not be installed; what npm said stands above.')
}

/** The inner npm must not inherit from the outer one what would leave out packages or their install scripts. */
function withoutNpmSettings(env) {
  const inherited = /^npm_(config_(omit|production|only|global|dry_run|ignore_scripts)|lifecycle|command)/i
  return Object.fromEntries(Object.entries(env).filter(([name]) => !inherited.test(name)))
}

function fail(sentence) {
  console.error(sentence)
  process.exit(1)
}
