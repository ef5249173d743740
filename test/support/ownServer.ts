/** The built program on a folder and a port of its own. */
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { createServer } from 'node:net'
import type { AddressInfo } from 'node:net'
import path from 'node:path'

const program = path.resolve(import.meta.dirname, '../../dist/server/server.js')
const readyWithinMs = 30_000

export type OwnServer = {
  readonly url: string
  readonly port: number
  readonly end: (signal?: NodeJS.Signals) => Promise<void>
}

export async function startServer(folder: string, port?: number): Promise<OwnServer> {
  const own = port ?? (await freePort())
  const child = spawn(process.execPath, [program], {
    env: { ...process.env, WAREBOARD_FOLDER: folder, PORT: String(own), DATABASE_URL: '' },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  await untilReady(child)
  return {
    url: `http://127.0.0.1:${own}`,
    port: own,
    end: async (signal = 'SIGTERM') => {
      if (child.exitCode !== null || child.signalCode !== null) return
      child.kill(signal)
      await once(child, 'exit')
    },
  }
}

function untilReady(child: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    let said = ''
    const limit = setTimeout(() => reject(new Error(`The server did not start: ${said}`)), readyWithinMs)
    const listen = (chunk: Buffer) => {
      said += chunk.toString()
      if (!said.includes('Wareboard is at')) return
      clearTimeout(limit)
      resolve()
    }
    child.stdout!.on('data', listen)
    child.stderr!.on('data', listen)
    child.once('exit', () => reject(new Error(`The server ended: ${said}`)))
  })
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1')
  await once(server, 'listening')
  const { port } = server.address() as AddressInfo
  server.close()
  await once(server, 'close')
  return port
}
