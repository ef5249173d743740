import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { writeStudioFile } from '#app/studio/writeStudioFile.ts'
import { exampleStudioFile } from '../../db/seed/exampleStudio.ts'

const folder = mkdtempSync(path.join(tmpdir(), 'wareboard-process-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('the same input gives the same bytes in two processes, wherever their clocks are', () => {
  const example = path.join(folder, 'example.json')
  writeFileSync(example, writeStudioFile(exampleStudioFile('2026-11-25')))
  const planIn = (zone: string) =>
    spawnSync(
      process.execPath,
      ['dist/server/wareboard.js', 'plan', example, '--json', '--now', '2026-11-25T08:00:00Z'],
      {
        env: { ...process.env, TZ: zone },
        encoding: 'utf8',
        maxBuffer: 64 * 1024 * 1024,
      },
    )
  const first = planIn('UTC')
  const second = planIn('Asia/Kathmandu')
  expect(first.status).toBe(0)
  expect(first.stdout.length).toBeGreaterThan(10_000)
  expect(second.stdout === first.stdout).toBe(true)
}, 60_000)
