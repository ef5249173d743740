import { defineConfig } from 'vitest/config'
import { closingLine } from './test/support/closingLine.ts'

export default defineConfig({
  test: {
    reporters: ['default', closingLine],
    include: ['test/**/*.test.{ts,tsx}'],
    exclude: ['test/arch/planted/**'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
})
