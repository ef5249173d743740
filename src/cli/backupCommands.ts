/** `backup`, `restore FILE`: all that the folder holds, its logbook and plans too, as one file and back. */
import path from 'node:path'
import { Refusal } from '#app/refusal.ts'
import { backupsOf } from '#store/backups.ts'
import { type Call, exitCodes } from './call.ts'
import { withSource } from './source.ts'

export async function backupCommand({ options, output }: Call): Promise<number> {
  const file = await withSource(options, (source) => source.backUp())
  output.out(options.json ? JSON.stringify({ file }) : `The backup is ${file}. Keep a copy on another disk.`)
  return exitCodes.done
}

export async function restoreCommand({ words, options, output }: Call): Promise<number> {
  const { folder, databaseUrl } = options
  if (databaseUrl) throw new Refusal('invalid', 'A database server is restored by those who run it.')
  const [, file] = words
  if (file === undefined) throw new Refusal('invalid', `Which backup? ${backupsSaid(folder)}`)
  // Loaded only here: the embedded database takes its time.
  const { restoreBackup } = await import('#store/restore.ts')
  const replaced = await restoreBackup(folder, file)
  if (options.json) output.out(JSON.stringify({ replaced: replaced ?? null }))
  else {
    output.out(`The studio is again as it was in ${path.basename(file)}.`)
    if (replaced !== undefined) output.out(`What was there before is kept in ${replaced}.`)
  }
  return exitCodes.done
}

function backupsSaid(folder: string): string {
  const files = backupsOf(folder).map((name) => path.join(folder, 'backups', name))
  return files.length === 0 ? `There is none in ${folder} yet.` : `There are, oldest first:\n  ${files.join('\n  ')}`
}
