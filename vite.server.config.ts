import { existsSync } from 'node:fs'
import { defineConfig } from 'vite'

/** Each is a program of its own: `dist/server/NAME.js`. */
const programs = { server: 'src/server.ts', worker: 'src/worker.ts', wareboard: 'src/wareboard.ts' }

export default defineConfig({
  publicDir: false,
  build: {
    ssr: true,
    outDir: 'dist/server',
    target: 'node20',
    sourcemap: true,
    minify: false,
    rolldownOptions: {
      input: Object.fromEntries(Object.entries(programs).filter(([, file]) => existsSync(file))),
      output: { entryFileNames: '[name].js', chunkFileNames: 'chunks/[name]-[hash].js' },
    },
  },
})
