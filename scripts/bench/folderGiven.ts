/** The folder of published instances that a bench was given; without one it says how it goes and ends. */
import { existsSync } from 'node:fs'

export function folderGiven([folder]: readonly string[], usage: string): string {
  if (folder !== undefined && existsSync(folder)) return folder
  console.error(folder === undefined ? `usage: npm run ${usage}` : `There is no folder “${folder}”.`)
  process.exit(2)
}
