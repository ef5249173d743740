/** The program itself, as it is built: started, killed, started again, asked to stop. */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import path from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { anEntryRecord } from '../support/entryRecords.ts'
import { temporaryFolder } from '../support/temporaryFolder.ts'

const root = path.resolve(import.meta.dirname, '../..')
/** The embedded database is made anew, which a busy machine takes its time for. */
const TIMEOUT_MS = 240_000
let folder: string
let running: ChildProcess | undefined

beforeAll(() => {
  execFileSync(process.execPath, ['scripts/build.mjs'], { cwd: root })
  folder = temporaryFolder()
})

afterAll(() => {
  running?.kill('SIGKILL')
  fs.rmSync(folder, { recursive: true, force: true })
})

type Started = { readonly child: ChildProcess; readonly address: string }

function spawnServer(settings: Readonly<Record<string, string>> = {}): ChildProcess {
  const { DATABASE_URL: _, ...env } = process.env
  return spawn(process.execPath, [path.join(root, 'dist/server/server.js')], {
    env: { ...env, WAREBOARD_FOLDER: folder, PORT: '0', ...settings },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
}

/** Waits for the line that says where it is. */
async function start(): Promise<Started> {
  const child = spawnServer()
  running = child
  let said = ''
  for await (const chunk of child
    .stdout!.setEncoding('utf8')
    .iterator({ destroyOnReturn: false }) as AsyncIterable<string>) {
    said += chunk
    const address = /is at (http:\S+)/.exec(said)?.[1]
    if (address) {
      child.stdout!.resume()
      return { child, address }
    }
  }
  throw new Error(`the server ended before it listened: ${said}`)
}

async function endOf(child: ChildProcess): Promise<{ code: number | null; said: string }> {
  let said = ''
  child.stderr!.setEncoding('utf8').on('data', (chunk: string) => (said += chunk))
  const [code] = (await once(child, 'exit')) as [number | null]
  return { code, said }
}

const post = (address: string, where: string, body?: unknown) =>
  fetch(`${address}${where}`, {
    method: 'POST',
    ...(body === undefined ? {} : { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
  })

test(
  'what was answered survives a kill; a second one does not get in; asked to stop, it stops though screens listen',
  async () => {
    const first = await start()
    expect((await post(first.address, '/api/example')).status).toBe(200)
    const tap = anEntryRecord(1, { id: 'just-before-the-kill' })
    expect((await post(first.address, '/api/log', tap)).status).toBe(200)

    const second = await endOf(spawnServer())
    expect(second.code).toBe(3)
    expect(second.said).toContain(`in use by process ${first.child.pid}`)
    expect(second.said).toContain(new URL(first.address).port)

    first.child.kill('SIGKILL')
    await once(first.child, 'exit')
    const back = await start()
    const { entries } = (await (await fetch(`${back.address}/api/log?limit=1`)).json()) as {
      entries: { entry: { id: string } }[]
    }
    expect(entries[0]?.entry.id).toBe('just-before-the-kill')

    const listening = await fetch(`${back.address}/api/events`)
    expect(listening.status).toBe(200)
    back.child.kill('SIGTERM')
    expect((await endOf(back.child)).code).toBe(0)
    expect(fs.existsSync(path.join(folder, 'in-use.json'))).toBe(false)
  },
  TIMEOUT_MS,
)

test(
  'the example gets a plan that breaks no rule, by the thread of the built program',
  async () => {
    const { child, address } = await start()
    await post(address, '/api/plan/again')
    await expect
      .poll(async () => ((await (await fetch(`${address}/api/plan`)).json()) as { plan: unknown }).plan, {
        timeout: 150_000,
        interval: 500,
      })
      .not.toBeNull()
    const page = await (await fetch(address)).text()
    expect(page).toContain('Wareboard')
    child.kill('SIGTERM')
    await once(child, 'exit')
  },
  TIMEOUT_MS,
)

test.each(['0.0.0.0', '::', '192.168.1.20'])('it does not listen on %s, and says why', async (host) => {
  const { code, said } = await endOf(spawnServer({ HOST: host }))
  expect(code).toBe(2)
  expect(said).toContain('there are no accounts yet')
})

test('a port that is taken is said to be', async () => {
  const { createServer } = await import('node:net')
  const taken = createServer().listen(0, '127.0.0.1')
  await once(taken, 'listening')
  const { port } = taken.address() as { port: number }
  const { code, said } = await endOf(spawnServer({ PORT: String(port) }))
  taken.close()
  expect(code).toBe(1)
  expect(said).toContain(`Port ${port} is taken`)
})
