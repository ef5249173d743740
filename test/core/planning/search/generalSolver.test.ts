import { expect, test } from 'vitest'
import { run } from '../../../soak/generalSolver.ts'

test('200 workshops, kilns and small problems as HiGHS says, which solves integer programmes (Huangfu & Hall 2018)', () => {
  expect(run(200, 5).report).toContain('0 disagreements')
}, 180_000)
