/** A PostgreSQL server for as long as the tests run, and the embedded database to begin from. */
import fs from 'node:fs'
import path from 'node:path'
import type { TestProject } from 'vitest/node'
import { TEMPLATE_DATABASE, embeddedArchive, putCluster } from './databaseTemplates.ts'
import { startPostgres } from './postgresServer.ts'
import { temporaryFolder } from './temporaryFolder.ts'

declare module 'vitest' {
  // oxlint-disable-next-line typescript/consistent-type-definitions -- only an interface can be added to
  interface ProvidedContext {
    embeddedArchive: string
    serverUrl: string
  }
}

export async function setup(project: TestProject): Promise<() => Promise<void>> {
  const folder = temporaryFolder()
  const cluster = path.join(folder, 'cluster')
  await putCluster(cluster)
  const server = await startPostgres(cluster, { durable: false })
  project.provide('embeddedArchive', await embeddedArchive())
  project.provide('serverUrl', server.urlOf(TEMPLATE_DATABASE))
  return async () => {
    await server.stop()
    fs.rmSync(folder, { recursive: true, force: true })
  }
}
