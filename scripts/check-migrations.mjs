// Fails if the tables in db/schema say something that no migration in db/migrations does.
import { spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import path from 'node:path'

const root = path.resolve(import.meta.dirname, '..')
// Inside the project, since drizzle-kit takes paths relative to it.
const copy = mkdtempSync(path.join(root, '.migrations-'))
process.on('exit', () => rmSync(copy, { recursive: true, force: true }))
cpSync(path.join(root, 'db/migrations'), copy, { recursive: true })

const before = sqlFiles()
const options = [
  '--dialect=postgresql',
  '--schema=./db/schema/index.ts',
  '--prefix=timestamp',
  `--out=${path.basename(copy)}`,
]
// With nothing to read from, a question (was this renamed?) ends it with an error: drift as well.
const { status, stdout, stderr } = spawnSync('drizzle-kit', ['generate', ...options], {
  cwd: root,
  encoding: 'utf8',
  stdio: ['ignore', 'pipe', 'pipe'],
})
const unwritten = sqlFiles().filter((file) => !before.includes(file))
if (status !== 0 || unwritten.length > 0 || before.length === 0) {
  console.error(stdout, stderr)
  console.error('db/schema and db/migrations differ: run `npm run db:generate`.')
  process.exitCode = 1
}

function sqlFiles() {
  return readdirSync(copy).filter((file) => file.endsWith('.sql'))
}
