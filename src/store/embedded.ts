/** The embedded database (PGlite) in a folder, made as durable as a server: see `fsyncing`. */
import fs from 'node:fs'
import { PGlite } from '@electric-sql/pglite'
import { NodeFS } from '@electric-sql/pglite/nodefs'

/** Out of the box it never waits for the disk: its start switches fsync off, and its file layer has none to call. */
const durableStart = PGlite.defaultStartParams
  .filter((parameter) => parameter !== '-F')
  .concat('-c', 'fsync=on', '-c', 'wal_sync_method=fsync', '-c', 'synchronous_commit=on', '-c', 'full_page_writes=on')

/** The database met something it cannot go on from, mostly a full or failing disk. What it had acknowledged is safe. */
export class DatabaseStopped extends Error {
  override readonly name = 'DatabaseStopped'

  constructor(cause: Error) {
    super(`The database had to stop (${cause.message}). Look at the disk and its free space, then start again.`, {
      cause,
    })
  }
}

/** Opens the database in `folder`; an empty or missing folder gets a new one. The caller holds the folder's lock. */
export async function openEmbedded(folder: string): Promise<PGlite> {
  const database = new StoppingPGlite({ fs: new FsyncingNodeFS(folder), startParams: durableStart })
  await database.waitReady
  return database
}

/** A server that panics ends, and the next query finds nobody there. Alone, it would be called again and never return. */
class StoppingPGlite extends PGlite {
  #stopped: DatabaseStopped | undefined

  override execProtocol(...message: Parameters<PGlite['execProtocol']>): ReturnType<PGlite['execProtocol']> {
    return this.#unlessStopped(() => super.execProtocol(...message))
  }

  override execProtocolStream(
    ...message: Parameters<PGlite['execProtocolStream']>
  ): ReturnType<PGlite['execProtocolStream']> {
    return this.#unlessStopped(() => super.execProtocolStream(...message))
  }

  async #unlessStopped<Answer>(call: () => Promise<Answer>): Promise<Answer> {
    if (this.#stopped) throw this.#stopped
    try {
      return await call()
    } catch (error) {
      if (!(error instanceof Error && 'severity' in error && error.severity === 'PANIC')) throw error
      throw (this.#stopped ??= new DatabaseStopped(error))
    }
  }
}

/** What is used of the module that the database's own file layer lives in. */
type FileLayer = {
  readonly NODEFS: {
    readonly stream_ops: { fsync?: (stream: { readonly nfd: number }) => number }
    readonly convertNodeCode: (error: unknown) => number
  }
  readonly FS: { readonly ErrnoError: new (errno: number) => Error }
}

class FsyncingNodeFS extends NodeFS {
  override async init(...[database, options]: Parameters<NodeFS['init']>): ReturnType<NodeFS['init']> {
    const { emscriptenOpts } = await super.init(database, options)
    const preRun = [...[emscriptenOpts.preRun ?? []].flat(), (module: unknown) => giveFsync(module as FileLayer)]
    return { emscriptenOpts: { ...emscriptenOpts, preRun } }
  }
}

function giveFsync({ NODEFS, FS }: FileLayer): void {
  NODEFS.stream_ops.fsync = ({ nfd }) => {
    try {
      fs.fsyncSync(nfd)
      return 0
    } catch (error) {
      throw new FS.ErrnoError(NODEFS.convertNodeCode(error)) // a disk that failed: the database must hear of it
    }
  }
}
