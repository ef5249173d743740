/** The composition root: reads the environment, opens the store, listens, closes. */
import { createAdaptorServer, type ServerType } from '@hono/node-server'
import { once } from 'node:events'
import type { Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { DateTime } from 'luxon'
import { exampleStudioFile } from '#db/seed/exampleStudio.ts'
import { exampleZone } from '#db/seed/example/clock.ts'
import { createApi } from '#api/api.ts'
import { addPages } from '#api/pages.ts'
import type { LogLine } from '#api/requestLog.ts'
import { createHappenings } from '#app/happenings.ts'
import { REPLAN_EVERY_MIN } from '#app/plan/age.ts'
import { loadCase } from '#app/plan/loadCase.ts'
import { createPlanner } from '#app/plan/planner.ts'
import { startPlanThread } from '#app/plan/planThread.ts'
import { savePlan } from '#app/plan/savePlan.ts'
import { closeOnSignals } from '#store/closeOnSignals.ts'
import { FolderInUse } from '#store/folderLock.ts'
import { openStore, storePlaceOf } from '#store/open.ts'
import { listStudios } from '#store/studios.ts'
import { faultText, troubleOf } from '#store/troubles.ts'

const exitCodes = { fault: 1, badInput: 2, inUse: 3 } as const
const loopback = new Set(['127.0.0.1', '::1', 'localhost'])
/** Rounds of improvement: a plan within a second or two, then better ones; on a slow machine fewer may be asked for. */
const EFFORTS = [0, 4, 20]
const PLAN_LIMIT_MS = 120_000
const PATIENCE_MS = 120_000

/** What is set to nothing is not set. */
const setting = (name: string, usual: string): string => process.env[name] || usual
const folder = setting('WAREBOARD_FOLDER', './data')
const mostRounds = setting('WAREBOARD_MOST_ROUNDS', '20')
const port = setting('PORT', '4600')
const host = setting('HOST', '127.0.0.1')
const { DATABASE_URL } = process.env

try {
  await run()
} catch (error) {
  console.error(sentenceOf(error) ?? faultText(error))
  process.exit(error instanceof FolderInUse ? exitCodes.inUse : exitCodes.fault)
}

async function run(): Promise<void> {
  if (!loopback.has(host)) refuseToBind()
  if (!/^\d{1,5}$/.test(port) || Number(port) > 65_535)
    refuseSetting(`PORT must be a number up to 65535, not “${port}”.`)
  if (!/^\d{1,3}$/.test(mostRounds))
    refuseSetting(`WAREBOARD_MOST_ROUNDS must be a whole number such as 0, 4 or 20, not “${mostRounds}”.`)
  const store = await openStore(storePlaceOf(DATABASE_URL, folder))
  const happenings = createHappenings()
  const planner = createPlanner({
    book: {
      load: (studioId, effort, start) => loadCase(store.db, studioId, effort, Math.floor(Date.now() / 60_000), start),
      save: (studioId, plan) => savePlan(store.db, studioId, plan),
    },
    thread: startPlanThread(new URL('./worker.js', import.meta.url)),
    happenings,
    report: (event, details) => log({ event, ...details }),
    efforts: EFFORTS.filter((rounds) => rounds === 0 || rounds <= Number(mostRounds)),
    limitMs: PLAN_LIMIT_MS,
    patienceMs: PATIENCE_MS,
    clockMs: Date.now,
  })
  const api = createApi(store.db, {
    planner,
    happenings,
    log,
    clockMs: Date.now,
    hostNames: ['127.0.0.1', 'localhost', '[::1]'],
    backUp: store.backUp,
    exampleNow: () => exampleStudioFile(DateTime.now().setZone(exampleZone).toISODate()!),
  })
  addPages(api, { db: store.db, planner }, fileURLToPath(new URL('../web', import.meta.url)))
  const server = createAdaptorServer({ fetch: api.fetch })
  const askForAll = async () => {
    const studios = await listStudios(store.db)
    for (const { id } of studios) planner.ask(id)
    if (studios.length > 0) await store.backUpDaily?.(Date.now()).catch(tellNoBackup)
  }
  // A database that cannot be reached just now can be at the next turn.
  const tellNoBackup = (error: unknown) => log({ event: 'not backed up', error: faultText(error) })
  const tellWhy = (error: unknown) => log({ event: 'not planned again', error: faultText(error) })
  const again = setInterval(() => void askForAll().catch(tellWhy), REPLAN_EVERY_MIN * 60_000)
  closeOnSignals(async () => {
    clearInterval(again)
    server.close()
    // Screens hold their connections open to hear what happens; they come back by themselves.
    if ('closeAllConnections' in server) server.closeAllConnections()
    await planner.close()
    await store.close()
  })
  const address = await listen(server)
  store.announcePort(address.port)
  const place = DATABASE_URL ? 'a database server' : path.resolve(folder)
  console.log(
    `Wareboard is at http://${host.includes(':') ? `[${host}]` : host}:${address.port} and keeps its data in ${place}`,
  )
  await askForAll().catch(tellWhy)
}

async function listen(server: ServerType): Promise<AddressInfo> {
  // A client that sends its headers or body drop by drop must not hold a connection for ever.
  Object.assign(server as Server, { headersTimeout: 15_000, requestTimeout: 60_000 })
  server.listen(Number(port), host)
  await once(server, 'listening')
  return server.address() as AddressInfo
}

function refuseToBind(): never {
  refuseSetting(
    `Wareboard does not listen on ${host}: there are no accounts yet, so whoever can reach it can read and change everything. ` +
      'It listens on this machine only (127.0.0.1).',
  )
}

function refuseSetting(sentence: string): never {
  console.error(sentence)
  process.exit(exitCodes.badInput)
}

function sentenceOf(error: unknown): string | undefined {
  if (error instanceof FolderInUse) {
    const { holder, message } = error
    return holder.port === null ? message : `${message} It is at http://127.0.0.1:${holder.port}`
  }
  const { code } = error as NodeJS.ErrnoException
  if (code === 'EACCES' && error instanceof Error && 'port' in error)
    return `This program may not listen on port ${port}: set PORT to one above 1023.`
  if (code === 'EADDRINUSE') return `Port ${port} is taken by another program: set PORT to another one.`
  return troubleOf(error)?.sentence
}

/** One line of JSON each, for whatever collects them. */
function log(line: LogLine): void {
  console.log(JSON.stringify({ at: new Date().toISOString(), ...line }))
}
