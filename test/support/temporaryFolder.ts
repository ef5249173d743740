import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'

/** A new empty folder that every user of the machine may enter. Whoever asks for it removes it. */
export function temporaryFolder(): string {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'wareboard-'))
  fs.chmodSync(folder, 0o755)
  return folder
}
