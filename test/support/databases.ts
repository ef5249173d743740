/** Databases for tests: both kinds, migrated, and as they were before when the test is over. */
import fs from 'node:fs'
import { randomUUID } from 'node:crypto'
import { PGlite } from '@electric-sql/pglite'
import { drizzle } from 'drizzle-orm/pglite'
import postgres from 'postgres'
import { inject, test } from 'vitest'
import * as schema from '#db/schema/index.ts'
import type { Db } from '#store/db.ts'
import { openServer } from '#store/openServer.ts'
import { TEMPLATE_DATABASE } from './databaseTemplates.ts'

/** Lends the embedded database; whatever `run` writes is taken back. */
export const withDb = async (run: (db: Db) => Promise<void>): Promise<void> => takenBack(await embedded(), run)

/** The same test on the embedded database and on a PostgreSQL server. */
export function onBothDatabases(name: string, run: (db: Db) => Promise<void>): void {
  test(`${name} (embedded)`, () => withDb(run))
  test(`${name} (server)`, async () => takenBack(await server(), run))
}

/** The address of a PostgreSQL database that only this test has: for what needs several connections, or real commits. */
export const withServerUrl = <Result>(run: (url: string) => Promise<Result>): Promise<Result> =>
  withCopyOf(TEMPLATE_DATABASE, run)

/** The same, without any tables. */
export const withEmptyServerUrl = <Result>(run: (url: string) => Promise<Result>): Promise<Result> =>
  withCopyOf('template1', run)

async function withCopyOf<Result>(template: string, run: (url: string) => Promise<Result>): Promise<Result> {
  const name = `test_${randomUUID().replaceAll('-', '')}`
  const result = await run(await copyOf(template, name))
  await asAdmin((admin) => admin`drop database ${admin(name)} with (force)`)
  return result
}

/** One of each in a process, for as long as it runs: to start one takes seconds, to take a transaction back milliseconds. */
const running = globalThis as { wareboardEmbedded?: Promise<Db>; wareboardServer?: Promise<Db> }

const embedded = (): Promise<Db> => (running.wareboardEmbedded ??= startEmbedded())

async function startEmbedded(): Promise<Db> {
  const archive = new Blob([fs.readFileSync(inject('embeddedArchive'))])
  return drizzle(await PGlite.create({ loadDataDir: archive }), { schema })
}

/** A copy of its own, since a template that somebody is connected to cannot be copied. */
const server = (): Promise<Db> => (running.wareboardServer ??= startServer())

const startServer = async (): Promise<Db> =>
  (await openServer(await copyOf(TEMPLATE_DATABASE, `worker_${process.pid}`))).db

async function copyOf(template: string, name: string): Promise<string> {
  await asAdmin((admin) => admin`create database ${admin(name)} template ${admin(template)}`)
  return inject('serverUrl').replace(TEMPLATE_DATABASE, name)
}

async function asAdmin(run: (admin: postgres.Sql) => Promise<unknown>): Promise<void> {
  const admin = postgres(inject('serverUrl').replace(TEMPLATE_DATABASE, 'postgres'), { max: 1 })
  await run(admin)
  await admin.end()
}

async function takenBack(db: Db, run: (db: Db) => Promise<void>): Promise<void> {
  const takeBack = new Error('take back')
  try {
    await db.transaction(async (db) => {
      await run(db)
      throw takeBack
    })
  } catch (error) {
    if (error !== takeBack) throw error
  }
}
