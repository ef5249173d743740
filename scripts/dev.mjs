// Server built again and started again on every change; the page served by Vite with hot reload at http://127.0.0.1:4601.
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync } from 'node:fs'
import path from 'node:path'
import { build, createServer } from 'vite'

process.chdir(path.resolve(import.meta.dirname, '..'))

let server
let restarting = Promise.resolve()
const watcher = await build({ configFile: 'vite.server.config.ts', logLevel: 'warn', build: { watch: {} } })
watcher.on('event', (event) => {
  if (event.code === 'ERROR') console.error(event.error)
  if (event.code === 'END') restarting = restarting.then(restart)
})

const page = existsSync('index.html') ? await createServer({ configFile: 'vite.config.ts' }) : undefined
await page?.listen()
page?.printUrls()

for (const signal of ['SIGINT', 'SIGTERM']) process.once(signal, () => void stop())

async function restart() {
  await stopServer()
  server = spawn(process.execPath, ['--enable-source-maps', 'dist/server/server.js'], { stdio: 'inherit' })
}

/** Waits for its end, since the folder of the data stays locked until then. */
async function stopServer() {
  if (!server || server.exitCode !== null || server.signalCode !== null) return
  server.kill('SIGTERM')
  await once(server, 'exit')
}

async function stop() {
  await Promise.all([watcher.close(), page?.close(), restarting.then(stopServer)])
  process.exit(0)
}
