import path from 'node:path'
import { build } from 'esbuild'

/** A program of the tests as plain JavaScript, so that a process that runs it is there in a tenth of a second. */
export async function bundled(entry: string): Promise<string> {
  const root = path.resolve(import.meta.dirname, '../..')
  const outfile = path.join(root, '.cache', 'programs', `${path.basename(entry, '.ts')}-${process.pid}.mjs`)
  await build({
    entryPoints: [path.resolve(root, entry)],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
    logLevel: 'error',
  })
  return outfile
}
