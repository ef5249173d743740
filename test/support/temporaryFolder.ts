import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'

/**
 * A new empty folder that every user of the machine may enter; in memory where there is plenty, since databases write much.
 * `TMPDIR` names another place. Whoever asks for it removes it.
 */
export function temporaryFolder(): string {
  const folder = fs.mkdtempSync(path.join(place(), 'wareboard-'))
  fs.chmodSync(folder, 0o755)
  return folder
}

const MEMORY = '/dev/shm'
const ENOUGH_BYTES = 2 ** 32

function place(): string {
  if (process.env.TMPDIR || !fs.existsSync(MEMORY)) return os.tmpdir()
  const { bavail, bsize } = fs.statfsSync(MEMORY)
  return bavail * bsize >= ENOUGH_BYTES ? MEMORY : os.tmpdir()
}
