import { existsSync } from 'node:fs'
import path from 'node:path'
import { serveStatic } from '@hono/node-server/serve-static'
import type { Api } from './api.ts'
import { firstPage } from './firstPage.ts'
import type { Desk } from './parts.ts'

/** Built files carry a hash of their content in their name, so they can be kept for ever; the page that names them cannot. */
const keptForEver = 'public, max-age=31536000, immutable'

/**
 * The app in the browser: its files, and its page for every address that is one of the app's own. Where it was not built,
 * a plain page stands in its place.
 */
export function addPages(api: Api, desk: Pick<Desk, 'db' | 'planner'>, webFolder: string): void {
  if (!existsSync(path.join(webFolder, 'index.html'))) {
    api.get('/', async (c) => c.html(await firstPage(desk)))
    return
  }
  const onFound = (file: string, c: { header: (name: string, value: string) => void }) =>
    c.header('cache-control', file.includes(`${path.sep}assets${path.sep}`) ? keptForEver : 'no-cache')
  const page = serveStatic({ root: webFolder, path: 'index.html', onFound })
  api.use('/*', serveStatic({ root: webFolder, onFound }))
  api.get('/*', (c, next) => (isAddressOfApp(c.req.path) ? page(c, next) : next()))
}

const isAddressOfApp = (address: string): boolean => !path.posix.extname(address) && !address.startsWith('/api/')
