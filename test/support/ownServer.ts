/** The built program on a folder and a port of its own. */
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { createServer } from 'node:net'
import type { AddressInfo } from 'node:net'
import path from 'node:path'
import type { Plan } from '#core/planning/plan.ts'
import { clockScript } from './clock.ts'

const program = path.resolve(import.meta.dirname, '../../dist/server/server.js')
const readyWithinMs = 60_000
const plannedWithinMs = 120_000
const lookAgainMs = 100

export type OwnServer = {
  readonly url: string
  readonly end: (signal?: NodeJS.Signals) => Promise<void>
  /** After it was ended, on the same folder and port. */
  readonly startAgain: () => Promise<void>
}

/** @param aheadMs by how much its clock is ahead of this machine's */
export async function startServer(folder: string, aheadMs = 0): Promise<OwnServer> {
  const port = await freePort()
  const start = () => startProcess(folder, port, aheadMs)
  let child = await start()
  return {
    url: `http://127.0.0.1:${port}`,
    end: async (signal = 'SIGTERM') => {
      if (child.exitCode !== null || child.signalCode !== null) return
      child.kill(signal)
      await once(child, 'exit')
    },
    startAgain: async () => {
      child = await start()
    },
  }
}

/** What the server answers, as JSON. */
export const ask = async <Answer>({ url }: OwnServer, address: string): Promise<Answer> =>
  (await (await fetch(`${url}${address}`)).json()) as Answer

/** @returns the first plan that knows the whole logbook */
export async function untilPlanned(server: OwnServer): Promise<Plan> {
  for (const startedMs = performance.now(); performance.now() - startedMs < plannedWithinMs;) {
    const { plan, logPosition } = await ask<{ plan: Plan | null; logPosition: number }>(server, '/api/plan')
    if (plan && plan.input.logPosition >= logPosition) return plan
    await new Promise((resolve) => setTimeout(resolve, lookAgainMs))
  }
  throw new Error('No plan came')
}

async function startProcess(folder: string, port: number, aheadMs: number): Promise<ChildProcess> {
  const clock = `data:text/javascript,${encodeURIComponent(clockScript(aheadMs))}`
  const child = spawn(process.execPath, ['--import', clock, program], {
    env: { ...process.env, WAREBOARD_FOLDER: folder, PORT: String(port), DATABASE_URL: '', WAREBOARD_MOST_ROUNDS: '0' },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  await untilReady(child)
  return child
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
