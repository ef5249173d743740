/** The embedded database (PGlite) in a folder, made as durable as a server: see `fsyncing`. */
import fs from 'node:fs'
import { PGlite } from '@electric-sql/pglite'
import { NodeFS } from '@electric-sql/pglite/nodefs'

/** Out of the box it never waits for the disk: its start switches fsync off, and its file layer has none to call. */
const durableStart = PGlite.defaultStartParams
  .filter((parameter) => parameter !== '-F')
  .concat('-c', 'fsync=on', '-c', 'wal_sync_method=fsync', '-c', 'synchronous_commit=on', '-c', 'full_page_writes=on')

/** Opens the database in `folder`; an empty or missing folder gets a new one. The caller holds the folder's lock. */
export const openEmbedded = (folder: string): Promise<PGlite> =>
  PGlite.create({ fs: new FsyncingNodeFS(folder), startParams: durableStart })

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
