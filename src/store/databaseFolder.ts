/** Where in the studio's folder the database is. */
import fs from 'node:fs'
import path from 'node:path'
import { renameDurably } from './durableFiles.ts'

const REPLACED = 'database.until-'

export const databaseIn = (folder: string): string => path.join(folder, 'database')

/** Asked before one is made only to find nothing in it. */
export const hasDatabase = (folder: string): boolean =>
  fs.existsSync(databaseIn(folder)) || newestReplaced(folder) !== undefined

/**
 * Puts the database in the place of another, which is kept beside it under its date.
 * @returns where that is; undefined if there was none
 */
export function replaceDatabase(folder: string, made: string): string | undefined {
  const replaced = path.join(folder, `${REPLACED}${new Date().toISOString().replaceAll(':', '-')}`)
  const hadOne = fs.existsSync(databaseIn(folder))
  if (hadOne) renameDurably(databaseIn(folder), replaced)
  renameDurably(made, databaseIn(folder))
  return hadOne ? replaced : undefined
}

/** A replacement that was cut short between its two names is taken back: better the old database than none. */
export function mendReplacement(folder: string): void {
  const replaced = fs.existsSync(databaseIn(folder)) ? undefined : newestReplaced(folder)
  if (replaced !== undefined) renameDurably(path.join(folder, replaced), databaseIn(folder))
}

/** By its name, which begins with its date. */
function newestReplaced(folder: string): string | undefined {
  if (!fs.existsSync(folder)) return undefined
  const names = fs.readdirSync(folder).filter((name) => name.startsWith(REPLACED))
  return names.toSorted().at(-1)
}
