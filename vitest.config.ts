import { defineConfig } from 'vitest/config'
import { closingLine } from './test/support/closingLine.ts'

/** Tests that use a database share one of each kind, so they run one after another in one process. */
const onDatabases = ['test/{store,api,cli}/**/*.test.{ts,tsx}', 'test/app/!(calendar|csv|plan|studio)/**/*.test.ts']
const planted = 'test/arch/planted/**'
/** Journeys in a real browser have the machine for themselves, since they are held to times. */
const inBrowser = 'test/e2e/**/*.test.ts'

export default defineConfig({
  test: {
    reporters: ['default', closingLine],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    projects: [
      {
        extends: true,
        test: { name: 'plain', include: ['test/**/*.test.{ts,tsx}'], exclude: [planted, inBrowser, ...onDatabases] },
      },
      {
        extends: true,
        test: {
          name: 'databases',
          include: onDatabases,
          exclude: [planted],
          globalSetup: ['test/support/databaseSetup.ts'],
          isolate: false,
          fileParallelism: false,
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: [inBrowser],
          // Each starts a server and waits for plans.
          testTimeout: 180_000,
          isolate: false,
          fileParallelism: false,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
})
