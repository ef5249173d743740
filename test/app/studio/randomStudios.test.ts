import { expect, test } from 'vitest'
import { run } from '../../soak/studioFiles.ts'

test('200 random studios are read as they were written, and their logbooks add up', () => {
  expect(run(200, 1)).toEqual({ failures: 0, report: '200 studios, 0 at fault' })
})
