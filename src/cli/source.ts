/** Where a command finds its studio: a file, the folder, a database server, or the program that is running on the folder. */
import { readFile } from 'node:fs/promises'
import { appendToLog } from '#app/log/appendToLog.ts'
import { onlyStudio } from '#app/records/onlyStudio.ts'
import { Refusal } from '#app/refusal.ts'
import { readStudioFile } from '#app/studio/readStudioFile.ts'
import { backUp } from '#app/transfer/backUp.ts'
import { exportStudio } from '#app/transfer/exportStudio.ts'
import { importAir, readAir, type ImportAirRequest } from '#app/transfer/importAir.ts'
import { importStudio } from '#app/transfer/importStudio.ts'
import type { EntryRecord } from '#contract/entry.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import type { Plan } from '#core/planning/plan.ts'
import { hasDatabase } from '#store/databaseFolder.ts'
import { FolderInUse, holderOf } from '#store/folderLock.ts'
import { openStore, storePlaceOf } from '#store/open.ts'
import { latestPlan } from '#store/plans.ts'
import { listStudios } from '#store/studios.ts'
import type { Store } from '#store/store.ts'
import type { Options } from './call.ts'

/** What commands ask of a studio, wherever it is kept. */
export type Source = {
  readonly exportText: () => Promise<string>
  readonly shownPlan: () => Promise<Plan | null>
  readonly log: (entries: readonly EntryRecord[]) => Promise<void>
  readonly importStudio: (file: StudioFile, mayReplace: boolean) => Promise<void>
  readonly importAir: (request: ImportAirRequest) => Promise<Awaited<ReturnType<typeof importAir>>>
  /** The example studio, which the running program makes itself. */
  readonly example: (file: StudioFile) => Promise<void>
  /** @returns where the backup is */
  readonly backUp: () => Promise<string>
  readonly close: () => Promise<void>
}

/** The studio of a file that was named, or the one that is kept. */
export async function studioFileOf(file: string | undefined, options: Options): Promise<StudioFile> {
  if (file !== undefined) return readStudioFile(await textOf(file))
  return withSource(options, async (source) => readStudioFile(await source.exportText()))
}

/** A studio, and the plan that its app shows: null where it comes from a file, or none is made yet. */
export type Kept = { readonly file: StudioFile; readonly shown: Plan | null }

export async function keptOf(file: string | undefined, options: Options): Promise<Kept> {
  if (file !== undefined) return { file: await studioFileOf(file, options), shown: null }
  return withSource(options, async (source) => ({
    file: readStudioFile(await source.exportText()),
    shown: await source.shownPlan(),
  }))
}

/** @throws Refusal `not-found`, or `too-large` */
export async function textOf(file: string): Promise<string> {
  const bytes = await readFile(file).catch(() => {
    throw new Refusal('not-found', `There is no file “${file}” that can be read.`)
  })
  if (bytes.length > MOST_BYTES)
    throw new Refusal('too-large', `“${file}” is too large: at most ${MOST_BYTES / 1_000_000} MB can be read.`)
  return decoded(bytes)
}

const MOST_BYTES = 250_000_000

/** Loggers and spreadsheets write UTF-16 with its mark, or the letters of old Windows; all others UTF-8. @see WHATWG Encoding */
function decoded(bytes: Uint8Array): string {
  const [first, second] = bytes
  if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le').decode(bytes)
  if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be').decode(bytes)
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return new TextDecoder('windows-1252').decode(bytes)
  }
}

/** Opens the studio that is kept, for as long as `use` takes. @throws Refusal `not-found` if nothing is kept there yet */
export async function withSource<Value>(options: Options, use: (source: Source) => Promise<Value>): Promise<Value> {
  const { folder, databaseUrl } = options
  if (!databaseUrl && !hasDatabase(folder) && !holderOf(folder)) {
    const message = `There is no studio in ${folder} yet: begin one in the app, load one with \`import\`, or the example with \`example\`.`
    throw new Refusal('not-found', message)
  }
  return withNewSource(options, use)
}

/** The same, where a studio may be about to come in: a folder that is not there is made. */
export async function withNewSource<Value>(options: Options, use: (source: Source) => Promise<Value>): Promise<Value> {
  const source = await openSource(options)
  try {
    return await use(source)
  } finally {
    await source.close()
  }
}

async function openSource(options: Options): Promise<Source> {
  const { folder, databaseUrl } = options
  const holder = databaseUrl ? null : holderOf(folder)
  if (holder?.port) return runningProgram(`http://127.0.0.1:${holder.port}`)
  if (holder) throw new FolderInUse(folder, holder)
  return ownStore(await openStore(storePlaceOf(databaseUrl, folder)), options)
}

function ownStore(store: Store, { nowIn }: Options): Source {
  const { db } = store
  return {
    exportText: async () => {
      const { id, zone } = await onlyStudio(db)
      return exportStudio(db, id, new Date(nowIn(zone) * 60_000).toISOString())
    },
    shownPlan: async () => (await latestPlan(db, (await onlyStudio(db)).id)) ?? null,
    log: async (entries) => void (await appendToLog(db, (await onlyStudio(db)).id, entries)),
    importStudio: async (file, mayReplace) => {
      if (mayReplace && (await listStudios(db)).length > 0) await store.backUp?.()
      await importStudio(db, file, mayReplace)
    },
    importAir: (request) => importAir(db, request),
    example: (file) => importStudio(db, file, false),
    backUp: () => backUp(store),
    close: () => store.close(),
  }
}

/** What the api takes in one call is a megabyte; a reading is less than a hundred characters, if its spot's id is not long. */
const READINGS_AT_ONCE = 1_500

type Asked = { readonly method?: 'POST'; readonly headers?: Readonly<Record<string, string>>; readonly body?: string }

/** The program that holds the folder does it, through its own API. */
function runningProgram(address: string): Source {
  const ask = async (path: string, init: Asked = {}): Promise<Response> => {
    const response = await fetch(`${address}/api${path}`, {
      ...init,
      headers: { origin: address, ...init.headers },
    }).catch(() => {
      throw new Refusal(
        'in-use',
        `The program at ${address} has the studio open, but does not answer. Stop it, or try again.`,
      )
    })
    if (response.ok) return response
    const problem = (await response.json().catch(() => ({}))) as {
      detail?: string
      title?: string
      fields?: Refusal['fields']
    }
    throw new Refusal(
      'invalid',
      problem.detail ?? problem.title ?? `The running program answered ${response.status}.`,
      problem.fields,
    )
  }
  const json = (body: unknown): Asked => ({
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
  return {
    exportText: async () => (await ask('/export')).text(),
    shownPlan: async () => ((await (await ask('/plan')).json()) as { readonly plan: Plan | null }).plan,
    log: async (entries) => void (await ask('/log', json(entries))),
    importStudio: async (file, mayReplace) =>
      void (await ask(`/import?replace=${mayReplace ? 'yes' : 'no'}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(file),
      })),
    importAir: async (request) => {
      const tables = (await (await ask('/studio/tables')).json()) as Pick<StudioFile, 'studio' | 'spots'>
      const { readings, report } = readAir(tables, request)
      let addedCount = 0
      for (let from = 0; from < readings.length; from += READINGS_AT_ONCE) {
        const part = readings.slice(from, from + READINGS_AT_ONCE)
        const answer = (await (await ask('/air-readings', json(part))).json()) as { readonly addedCount: number }
        addedCount += answer.addedCount
      }
      return { ...report, addedCount }
    },
    example: async () => void (await ask('/example', { method: 'POST' })),
    backUp: async () => ((await (await ask('/backup', { method: 'POST' })).json()) as { readonly file: string }).file,
    close: () => Promise.resolve(),
  }
}
