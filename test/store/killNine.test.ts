import { expect, test } from 'vitest'
import { run } from '../soak/killNine.ts'

// `npm run soak -- killNine --cases 50` is the long form.
test('what was acknowledged outlives a kill, of the writer and of the server', async () => {
  const { failures, report } = await run(3, 1)
  expect(report).toMatch(
    /^embedded.* [1-9]\d* entries acknowledged.*\nserver.* [1-9]\d* entries ack.*\nserver.* [1-9]\d* entries ack/,
  )
  expect(failures, report).toBe(0)
}, 120_000)
