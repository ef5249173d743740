import { eq, sql } from 'drizzle-orm'
import { drizzle } from 'drizzle-orm/postgres-js'
import { migrate } from 'drizzle-orm/postgres-js/migrator'
import fs from 'node:fs'
import postgres from 'postgres'
import { expect, test } from 'vitest'
import { logEntries } from '#db/schema/index.ts'
import { appendEntries } from '#store/logEntries.ts'
import { allMigrations } from '#store/migrations.ts'
import { openServer } from '#store/openServer.ts'
import { upsertStudio } from '#store/studios.ts'
import { withEmptyServerUrl, withServerUrl } from '../support/databases.ts'
import { firstMigrations } from '../support/databaseTemplates.ts'
import { aStudioRecord, entryRecords } from '../support/entryRecords.ts'

async function asOwner<Result>(url: string, run: (client: postgres.Sql) => Promise<Result>): Promise<Result> {
  const client = postgres(url, { max: 1, onnotice: () => {} })
  const result = await run(client)
  await client.end()
  return result
}

/** All that the tables are: columns, constraints, indexes, triggers and functions, each in one line. */
const shapeOf = (url: string) =>
  asOwner(url, async (client) => {
    const rows = await client<{ line: string }[]>`
      select concat_ws(' ', table_name, column_name, data_type, is_nullable, column_default) as line
        from information_schema.columns where table_schema = 'public'
      union all select concat_ws(' ', conrelid::regclass, conname, pg_get_constraintdef(oid)) from pg_constraint
        where connamespace = 'public'::regnamespace
      union all select indexdef from pg_indexes where schemaname = 'public'
      union all select pg_get_triggerdef(oid) from pg_trigger where not tgisinternal
      union all select pg_get_functiondef(oid) from pg_proc where pronamespace = 'public'::regnamespace
      order by 1`
    return rows.map(({ line }) => line)
  })

test('every earlier state of the tables becomes the newest', async () => {
  const newest = await withServerUrl(shapeOf)
  expect(newest.length).toBeGreaterThan(150)
  for (let count = 1; count < allMigrations().length; count++)
    await withEmptyServerUrl(async (url) => {
      const folder = firstMigrations(count)
      await asOwner(url, (client) => migrate(drizzle(client), { migrationsFolder: folder }))
      fs.rmSync(folder, { recursive: true })
      await (await openServer(url)).close()
      expect(await shapeOf(url)).toEqual(newest)
    })
})

test('several that start at once change the tables once', async () => {
  await withEmptyServerUrl(async (url) => {
    const stores = await Promise.all(Array.from({ length: 4 }, () => openServer(url)))
    const applied = await asOwner(url, (client) => client`select hash from drizzle.__drizzle_migrations`)
    expect(applied).toHaveLength(allMigrations().length)
    await Promise.all(stores.map((store) => store.close()))
  })
})

test('a database that a newer version has changed is left alone', async () => {
  await withServerUrl(async (url) => {
    const tomorrow = Date.now() + 86_400_000
    await asOwner(
      url,
      (client) => client`insert into drizzle.__drizzle_migrations (hash, created_at) values ('new', ${tomorrow})`,
    )
    await expect(openServer(url)).rejects.toThrow('made by a newer version')
  })
})

test('a logbook that lacks entries is not opened', async () => {
  await withServerUrl(async (url) => {
    const store = await openServer(url)
    await upsertStudio(store.db, aStudioRecord)
    await appendEntries(store.db, 'studio', entryRecords(5))
    await store.db.execute(sql`alter table log_entries disable trigger all`)
    await store.db.delete(logEntries).where(eq(logEntries.position, 3))
    await store.close()
    await expect(openServer(url)).rejects.toThrow('The logbook of “Studio” lacks 1 entries')
  })
})
