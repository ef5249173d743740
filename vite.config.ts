import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

const server = 'http://127.0.0.1:4600'

export default defineConfig({
  plugins: [react()],
  build: { outDir: 'dist/web', sourcemap: true },
  // The server takes calls from its own page only; in development the page is the one that Vite serves.
  server: {
    port: 4601,
    strictPort: true,
    proxy: { '/api': { target: server, changeOrigin: true, headers: { origin: server } } },
  },
})
