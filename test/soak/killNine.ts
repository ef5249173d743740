/**
 * Kills a process that writes to the logbook, again and again, at moments left to chance, also while it opens. Whatever was
 * acknowledged must be there afterwards, at its position, and the database must open by itself. Three ways to be killed: alone
 * with the embedded database, as one that writes to a server, and the server itself.
 */
import { spawn } from 'node:child_process'
import type { ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import path from 'node:path'
import { createInterface } from 'node:readline'
import { setTimeout as pause } from 'node:timers/promises'
import { seededRng } from '#core/rng.ts'
import { bundled } from '../support/bundled.ts'
import { TEMPLATE_DATABASE, putCluster, putEmbedded } from '../support/databaseTemplates.ts'
import { startPostgres } from '../support/postgresServer.ts'
import type { PostgresServer } from '../support/postgresServer.ts'
import { temporaryFolder } from '../support/temporaryFolder.ts'

type Outcome = { readonly kills: number; readonly acknowledged: number; readonly lost: readonly string[] }

/** `cases` kills in each of the three ways. */
export async function run(cases: number, seed: number): Promise<{ failures: number; report: string }> {
  const program = await bundled('test/support/killNineWriter.ts')
  const rng = seededRng(seed)
  const chance = () => rng.next()
  const outcomes: Record<string, Outcome> = {
    'embedded, writer killed': await inFolder((folder) => killWriters(program, folder, cases, chance)),
    ...(await inFolder((folder) => killOnServer(program, folder, cases, chance))),
  }
  const lines = Object.entries(outcomes).map(
    ([name, { kills, acknowledged, lost }]) =>
      `${name}: ${kills} kills, ${acknowledged} entries acknowledged, ${lost.length} lost ${lost.slice(0, 5).join(' ')}`,
  )
  const failures = Object.values(outcomes).reduce((sum, { lost }) => sum + lost.length, 0)
  return { failures, report: lines.join('\n') }
}

async function killWriters(program: string, folder: string, cases: number, chance: () => number): Promise<Outcome> {
  await putEmbedded(folder)
  return killedRounds(cases, chance, (round) => startWriter(program, [folder, '', round]))
}

async function killOnServer(program: string, folder: string, cases: number, chance: () => number) {
  const cluster = path.join(folder, 'cluster')
  await putCluster(cluster)
  const startOn = (server: PostgresServer, round: string) =>
    startWriter(program, ['', server.urlOf(TEMPLATE_DATABASE), round])
  const server = await startPostgres(cluster, { durable: true })
  const writerKilled = await killedRounds(cases, chance, (round) => startOn(server, `a${round}`))
  await server.stop()
  const serverKilled = await killedRounds(cases, chance, async (round) => {
    const server = await startPostgres(cluster, { durable: true })
    const writer = await startOn(server, `b${round}`)
    const kill = async () => {
      await server.killNine()
      await writer.kill()
    }
    return { ...writer, kill }
  })
  return { 'server, writer killed': writerKilled, 'server killed': serverKilled }
}

type Writer = {
  /** `position:id` of what was there when it opened; undefined for as long as it has not. */
  readonly held: () => ReadonlySet<string> | undefined
  readonly acknowledged: readonly string[]
  readonly acknowledgedCount: (count: number) => Promise<void>
  readonly kill: () => Promise<void>
}

async function killedRounds(
  cases: number,
  chance: () => number,
  start: (round: string) => Promise<Writer>,
): Promise<Outcome> {
  const acknowledged: string[] = []
  const lost = new Set<string>()
  for (let round = 0; round <= cases; round++) {
    const writer = await start(String(round))
    // One in five is killed while it opens, which it may be doing after such a kill itself; the last one may open in peace.
    if (round < cases && chance() < 0.2) await pause(chance() * 1_000)
    else {
      await writer.acknowledgedCount(1 + Math.floor(chance() * 40))
      await pause(chance() * 20)
    }
    await writer.kill()
    const held = writer.held()
    if (held) for (const entry of acknowledged) if (!held.has(entry)) lost.add(entry)
    if (round < cases) acknowledged.push(...writer.acknowledged)
  }
  return { kills: cases, acknowledged: acknowledged.length, lost: [...lost] }
}

async function startWriter(program: string, [folder, url, round]: readonly [string, string, string]): Promise<Writer> {
  const child = spawn(process.execPath, [program, folder, url, round], { stdio: ['ignore', 'pipe', 'pipe'] })
  const acknowledged: string[] = []
  let held: ReadonlySet<string> | undefined
  let complaints = ''
  child.stderr.on('data', (text: Buffer) => (complaints += text.toString()))
  const lines = createInterface(child.stdout)
  const closed = once(lines, 'close')
  lines.on('line', (line) => {
    const [word, ...entries] = line.split(' ')
    if (word === 'has') acknowledged.push(...entries)
    else held = new Set(entries)
  })
  const acknowledgedCount = async (count: number) => {
    while (acknowledged.length < count && child.exitCode === null) await pause(1)
    if (child.exitCode !== null) throw new Error(`The database did not open again: ${complaints}`)
  }
  const kill = async () => {
    await killed(child)
    await closed // what it said last may still be under way
  }
  return { held: () => held, acknowledged, acknowledgedCount, kill }
}

async function killed(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return
  const exited = once(child, 'exit')
  child.kill('SIGKILL')
  await exited
}

async function inFolder<Result>(work: (folder: string) => Promise<Result>): Promise<Result> {
  const folder = temporaryFolder()
  try {
    return await work(folder)
  } finally {
    fs.rmSync(folder, { recursive: true, force: true })
  }
}
