/** Where in the studio's folder the database is. */
import fs from 'node:fs'
import path from 'node:path'

export const databaseIn = (folder: string): string => path.join(folder, 'database')

/** Asked before one is made only to find nothing in it. */
export const hasDatabase = (folder: string): boolean => fs.existsSync(databaseIn(folder))
