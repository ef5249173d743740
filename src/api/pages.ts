import { existsSync } from 'node:fs'
import path from 'node:path'
import { serveStatic } from '@hono/node-server/serve-static'
import { Hono } from 'hono'
import type { ApiEnv } from './env.ts'

/** Built files carry a hash of their content in their name, so they can be kept for ever; the page that names them cannot. */
const keptForEver = 'public, max-age=31536000, immutable'

/** The app in the browser: its files, and its page for every address that is one of the app's own. */
export function pageRoutes(webFolder: string) {
  return new Hono<ApiEnv>()
    .use(
      '/*',
      serveStatic({
        root: webFolder,
        onFound: (file, c) =>
          c.header('cache-control', file.includes(`${path.sep}assets${path.sep}`) ? keptForEver : 'no-cache'),
      }),
    )
    .get('/*', async (c, next) => {
      const isAddress = !path.posix.extname(c.req.path) && !c.req.path.startsWith('/api/')
      if (!isAddress) return next()
      c.header('cache-control', 'no-cache')
      return serveStatic<ApiEnv>({ root: webFolder, path: 'index.html' })(c, next)
    })
}

export const hasPages = (webFolder: string): boolean => existsSync(path.join(webFolder, 'index.html'))
