// Everything that can be known of the code without running its tests. All steps run, each is timed; fails if any fails.
import { spawnSync } from 'node:child_process'
import { readdirSync } from 'node:fs'
import path from 'node:path'

process.chdir(path.resolve(import.meta.dirname, '..'))
process.env.PATH = `${path.resolve('node_modules/.bin')}${path.delimiter}${process.env.PATH}`

const folders = ['src', 'db', 'test', 'scripts']
const steps = [
  { name: 'format', run: () => succeeds('oxfmt', ['--check', ...folders]) },
  { name: 'lint', run: lint },
  { name: 'types of the core', run: () => succeeds('tsc', ['--noEmit', '-p', 'src/core']) },
  { name: 'types', run: () => succeeds('tsc', ['--noEmit', '-p', '.']) },
  { name: 'dead code', run: () => succeeds('knip', []) },
  { name: 'migrations', run: () => succeeds('node', ['scripts/check-migrations.mjs']) },
]

let failed = 0
for (const { name, run } of steps) {
  const startedMs = performance.now()
  const passed = run()
  if (!passed) failed++
  console.log(`${passed ? 'ok    ' : 'FAILED'}  ${name}  ${((performance.now() - startedMs) / 1000).toFixed(1)} s`)
}
console.log(`${steps.length - failed} passed, ${failed} failed`)
process.exitCode = failed > 0 ? 1 : 0

/** A linter that was given nothing to read is content: it must say that it read every file there is. */
function lint() {
  const { status, stdout } = spawnSync('oxlint', ['--type-aware', '--deny-warnings', ...folders], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const read = Number(/on (\d+) files?/.exec(stdout)?.[1] ?? 0)
  const present = folders
    .flatMap((folder) => readdirSync(folder, { recursive: true }))
    .filter((file) => /\.tsx?$/.test(file)).length
  if (status !== 0 || read < present) console.log(stdout)
  if (read < present) console.log(`The linter read ${read} files; there are ${present}.`)
  return status === 0 && read >= present
}

function succeeds(command, args) {
  return spawnSync(command, args, { stdio: 'inherit' }).status === 0
}
