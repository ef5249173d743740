import { mkdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'

const pauseMs = 200
// Between creating the file and writing the pid into it a process may die; a file still empty after this long is nobody's.
const emptyForMs = 5_000

/**
 * Does `work` while no other process does work under the same lock file; waits for its turn. Zero dependencies, since it
 * guards the installation of the dependencies. A lock whose owner is gone is taken over.
 */
export async function onlyOne(lockFile, work) {
  mkdirSync(path.dirname(lockFile), { recursive: true })
  while (!take(lockFile)) {
    clearAbandoned(lockFile)
    await new Promise((resolve) => setTimeout(resolve, pauseMs))
  }
  const release = () => rmSync(lockFile, { force: true })
  const stop = () => process.exit(130)
  process.on('exit', release)
  process.on('SIGINT', stop).on('SIGTERM', stop)
  try {
    return await work()
  } finally {
    release()
    process.off('exit', release)
    process.off('SIGINT', stop).off('SIGTERM', stop)
  }
}

function take(lockFile) {
  try {
    writeFileSync(lockFile, String(process.pid), { flag: 'wx' })
    return true
  } catch (error) {
    if (error.code === 'EEXIST') return false
    throw error
  }
}

function clearAbandoned(lockFile) {
  try {
    const owner = readFileSync(lockFile, 'utf8')
    const abandoned = owner === '' ? Date.now() - statSync(lockFile).mtimeMs > emptyForMs : !isAlive(Number(owner))
    if (!abandoned) return
    // Renamed before it is removed: of several that see the same abandoned lock only one gets it out of the way.
    const aside = `${lockFile}.${process.pid}`
    renameSync(lockFile, aside)
    rmSync(aside, { force: true })
  } catch (error) {
    if (error.code !== 'ENOENT') throw error
  }
}

function isAlive(pid) {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return error.code === 'EPERM'
  }
}
