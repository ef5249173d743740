/**
 * One process at a time in a folder. The embedded database does not guard its files, so this does: a file that names the
 * holder, made in one step, and taken over only from a process that is gone.
 */
import { execFileSync } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'

/** Who is in the folder. With a port it is a server on this machine, and can be asked instead. */
export type FolderHolder = {
  readonly pid: number
  /** Tells a process from a later one with the same number; '' where the system does not say. */
  readonly processStart: string
  readonly host: string
  readonly port: number | null
}

/** The folder is in another process's hands. */
export class FolderInUse extends Error {
  override readonly name = 'FolderInUse'
  readonly folder: string
  readonly holder: FolderHolder

  constructor(folder: string, holder: FolderHolder) {
    super(`The folder ${folder} is in use by process ${holder.pid} on ${holder.host}.`)
    this.folder = folder
    this.holder = holder
  }
}

export type FolderLock = {
  /** Tells those who find the folder held where its server listens. */
  readonly announcePort: (port: number) => void
  readonly release: () => void
}

const LOCK_FILE = 'in-use.json'
const TAKEOVER_FILE = 'in-use.takeover'
/** A holder on another machine (or in another container) cannot be looked up; it counts as gone when silent this long. */
const SILENT_FOR_MS = 90_000
const HEARTBEAT_MS = 30_000

/**
 * Takes the folder (made if it is not there) for this process, also from a holder that is gone.
 * @throws FolderInUse if the holder still runs
 */
export function lockFolder(folder: string): FolderLock {
  fs.mkdirSync(folder, { recursive: true })
  const lockFile = path.join(folder, LOCK_FILE)
  let me = thisProcess()
  while (!tookFile(lockFile, me)) {
    const holder = readHolder(lockFile)
    if (holder !== null && isThere(holder, lockFile)) throw new FolderInUse(folder, holder)
    removeStale(folder)
  }
  const heartbeat = setInterval(() => touch(lockFile), HEARTBEAT_MS).unref()
  const release = () => {
    clearInterval(heartbeat)
    process.off('exit', release)
    if (isSame(readHolder(lockFile), me)) fs.rmSync(lockFile, { force: true })
  }
  process.on('exit', release)
  const announcePort = (port: number) => {
    me = { ...me, port }
    replaceFile(lockFile, JSON.stringify(me))
  }
  return { announcePort, release }
}

/** Who holds the folder now; null if nobody does. */
export function holderOf(folder: string): FolderHolder | null {
  const lockFile = path.join(folder, LOCK_FILE)
  const holder = readHolder(lockFile)
  return holder !== null && isThere(holder, lockFile) ? holder : null
}

const thisProcess = (): FolderHolder => ({
  pid: process.pid,
  processStart: processStartOf(process.pid),
  host: os.hostname(),
  port: null,
})

/** A link appears whole or not at all, so that nobody ever reads half a lock. */
function tookFile(file: string, holder: FolderHolder): boolean {
  const draft = `${file}.${randomUUID()}`
  fs.writeFileSync(draft, JSON.stringify(holder))
  try {
    fs.linkSync(draft, file)
    return true
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false
    throw error
  } finally {
    fs.rmSync(draft, { force: true })
  }
}

/**
 * Only who has the takeover file may remove another's lock, and looks at it once more before it does: else two that saw the
 * same stale lock could remove it in turn, the second removing the first one's new lock.
 */
function removeStale(folder: string): void {
  const lockFile = path.join(folder, LOCK_FILE)
  const takeoverFile = path.join(folder, TAKEOVER_FILE)
  if (!tookFile(takeoverFile, thisProcess())) {
    const other = readHolder(takeoverFile)
    if (other === null || !isThere(other, takeoverFile)) fs.rmSync(takeoverFile, { force: true })
    return
  }
  const holder = readHolder(lockFile)
  if (holder === null || !isThere(holder, lockFile)) fs.rmSync(lockFile, { force: true })
  fs.rmSync(takeoverFile, { force: true })
}

/** null if there is no such file, or nothing in it that names a process (a power cut can leave it empty). */
function readHolder(file: string): FolderHolder | null {
  try {
    const holder = JSON.parse(fs.readFileSync(file, 'utf8')) as FolderHolder
    return Number.isInteger(holder.pid) && holder.pid > 0 ? holder : null
  } catch (error) {
    if (error instanceof SyntaxError || (error as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw error
  }
}

function isThere(holder: FolderHolder, file: string): boolean {
  if (holder.host !== os.hostname()) return wasTouchedLately(file)
  return isRunning(holder.pid) && processStartOf(holder.pid) === holder.processStart
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM' // there, but another user's
  }
}

function processStartOf(pid: number): string {
  try {
    if (process.platform === 'linux') {
      // Fields 3 (state) and 22 (ticks since boot), counted after the name in brackets, which may hold blanks: proc_pid_stat(5).
      const fields = fs.readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').at(-1)!.split(' ')
      if (fields[0] === 'Z') return 'ended' // killed, and not yet taken note of by its parent
      return `${fs.readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()} ${fields[19]}`
    }
    if (process.platform === 'win32') return ''
    return execFileSync('ps', ['-o', 'lstart=', '-p', String(pid)], { encoding: 'utf8' }).trim()
  } catch {
    return '' // no such process, or no way to ask: its number alone must do
  }
}

const isSame = (a: FolderHolder | null, b: FolderHolder): boolean =>
  a !== null && a.pid === b.pid && a.processStart === b.processStart && a.host === b.host

function wasTouchedLately(file: string): boolean {
  const touchedMs = fs.statSync(file, { throwIfNoEntry: false })?.mtimeMs
  return touchedMs !== undefined && Date.now() - touchedMs < SILENT_FOR_MS
}

function touch(file: string): void {
  const now = new Date()
  fs.utimes(file, now, now, () => {}) // the lock stays ours by its content; a heartbeat missed is made up by the next
}

function replaceFile(file: string, content: string): void {
  const draft = `${file}.${randomUUID()}`
  fs.writeFileSync(draft, content)
  fs.renameSync(draft, file)
}
