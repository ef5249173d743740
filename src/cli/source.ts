/** Where a command finds its studio: a file, the folder, a database server, or the program that is running on the folder. */
import { readFile } from 'node:fs/promises'
import { appendToLog } from '#app/log/appendToLog.ts'
import { onlyStudio } from '#app/records/onlyStudio.ts'
import { Refusal } from '#app/refusal.ts'
import { readStudioFile } from '#app/studio/readStudioFile.ts'
import { exportStudio } from '#app/transfer/exportStudio.ts'
import { importAir, type ImportAirRequest } from '#app/transfer/importAir.ts'
import { importStudio } from '#app/transfer/importStudio.ts'
import type { EntryRecord } from '#contract/entry.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { FolderInUse, holderOf } from '#store/folderLock.ts'
import { openStore, storePlaceOf } from '#store/open.ts'
import type { Store } from '#store/store.ts'
import type { Options } from './call.ts'

/** What commands ask of a studio, wherever it is kept. */
export type Source = {
  readonly exportText: () => Promise<string>
  readonly log: (entries: readonly EntryRecord[]) => Promise<void>
  readonly importStudio: (text: string, mayReplace: boolean) => Promise<void>
  readonly importAir: (request: ImportAirRequest) => Promise<Awaited<ReturnType<typeof importAir>>>
  /** The example studio, which the running program makes itself. */
  readonly example: (file: StudioFile) => Promise<void>
  readonly close: () => Promise<void>
}

/** The studio of a file that was named, or the one that is kept. */
export async function studioFileOf(file: string | undefined, options: Options): Promise<StudioFile> {
  if (file !== undefined) return readStudioFile(await textOf(file))
  return withSource(options, async (source) => readStudioFile(await source.exportText()))
}

/** @throws Refusal `not-found` */
export async function textOf(file: string): Promise<string> {
  try {
    return await readFile(file, 'utf8')
  } catch {
    throw new Refusal('not-found', `There is no file “${file}” that can be read.`)
  }
}

/** Opens the studio that is kept, for as long as `use` takes. */
export async function withSource<Value>(options: Options, use: (source: Source) => Promise<Value>): Promise<Value> {
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

function ownStore(store: Store, { nowMin }: Options): Source {
  const { db } = store
  return {
    exportText: async () => exportStudio(db, (await onlyStudio(db)).id, new Date(nowMin * 60_000).toISOString()),
    log: async (entries) => void (await appendToLog(db, (await onlyStudio(db)).id, entries)),
    importStudio: (text, mayReplace) => importStudio(db, readStudioFile(text), mayReplace),
    importAir: (request) => importAir(db, request),
    example: (file) => importStudio(db, file, false),
    close: () => store.close(),
  }
}

type Asked = { readonly method?: 'POST'; readonly headers?: Readonly<Record<string, string>>; readonly body?: string }

/** The program that holds the folder does it, through its own API. */
function runningProgram(address: string): Source {
  const ask = async (path: string, init: Asked = {}): Promise<Response> => {
    const response = await fetch(`${address}/api${path}`, { ...init, headers: { origin: address, ...init.headers } })
    if (response.ok) return response
    const problem = (await response.json().catch(() => ({}))) as {
      detail?: string
      title?: string
      problems?: Refusal['fields']
    }
    throw new Refusal('invalid', problem.detail ?? problem.title ?? `The running program answered ${response.status}.`)
  }
  const json = (body: unknown): Asked => ({
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
  return {
    exportText: async () => (await ask('/export')).text(),
    log: async (entries) => void (await ask('/log', json(entries))),
    importStudio: async (text, mayReplace) =>
      void (await ask(`/import?replace=${mayReplace ? 'yes' : 'no'}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: text,
      })),
    importAir: async () => {
      throw new Refusal(
        'in-use',
        `The studio is open in the program at ${address}: paste or upload air there, or stop it first.`,
      )
    },
    example: async () => void (await ask('/example', { method: 'POST' })),
    close: () => Promise.resolve(),
  }
}
