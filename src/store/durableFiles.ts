/** Files and folders that are on the disk, not only on their way to it. */
import fs from 'node:fs'
import path from 'node:path'

/** Waits until the folder and all that is in it are on the disk. */
export function syncTree(folder: string): void {
  for (const item of fs.readdirSync(folder, { withFileTypes: true })) {
    const itemPath = path.join(folder, item.name)
    if (item.isDirectory()) syncTree(itemPath)
    else if (item.isFile()) syncOne(itemPath)
  }
  syncOne(folder)
}

/** Gives what was made under another name its own: whole, or not at all. */
export function renameDurably(from: string, to: string): void {
  fs.renameSync(from, to)
  syncOne(path.dirname(to))
}

export function writeDurably(file: string, content: Uint8Array): void {
  const draft = `${file}.part`
  fs.writeFileSync(draft, content, { flush: true })
  renameDurably(draft, file)
}

function syncOne(itemPath: string): void {
  if (process.platform === 'win32') return // a folder cannot be opened there, a file only for writing; NTFS keeps a journal of names
  const descriptor = fs.openSync(itemPath, 'r')
  try {
    fs.fsyncSync(descriptor)
  } finally {
    fs.closeSync(descriptor)
  }
}
