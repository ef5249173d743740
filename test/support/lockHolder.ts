/** Takes the folder it is given, announces the port it is given, says so, and stays until it is ended. */
import { FolderInUse, lockFolder } from '#store/folderLock.ts'

const [folder, port] = process.argv.slice(2)
try {
  const lock = lockFolder(folder!)
  if (port) lock.announcePort(Number(port))
  console.log('holds')
  setInterval(() => {}, 1_000)
} catch (error) {
  if (!(error instanceof FolderInUse)) throw error
  console.log(`in use by ${error.holder.pid}`)
}
