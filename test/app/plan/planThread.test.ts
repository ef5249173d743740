import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { startPlanThread, type PlanThread } from '#app/plan/planThread.ts'
import type { PlanningCase } from '#core/planning/plan.ts'

/** In the place of the planner: does as the case's effort says, so that every end a thread can come to is come to. */
const program = `
import { parentPort } from 'node:worker_threads'
parentPort.on('message', ({ jobId, planningCase: { input } }) => {
  if (input.effort === 1) for (;;) {}
  if (input.effort === 2) process.exit(7)
  if (input.effort === 3) setTimeout(() => { throw new Error('thrown outside') })
  if (input.effort === 0) parentPort.postMessage({ jobId, outcome: { kind: 'made', plan: { input }, breaches: [] } })
})`
const [made, hangs, exits, throws] = [0, 1, 2, 3].map((effort) => ({ input: { effort } }) as PlanningCase)

let folder: string
let thread: PlanThread
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'thread-'))
  writeFileSync(path.join(folder, 'worker.mjs'), program)
  thread = startPlanThread(pathToFileURL(path.join(folder, 'worker.mjs')))
})
afterAll(async () => {
  await thread.close()
  rmSync(folder, { recursive: true, force: true })
})

const isStillGood = async () => expect(await thread.plan(made!, 30_000)).toMatchObject({ kind: 'made' })

test('makes one plan after another', async () => {
  await isStillGood()
  await isStillGood()
})

test('one that hangs is ended by its time, and the next is made', async () => {
  expect(await thread.plan(hangs!, 200)).toEqual({ kind: 'abandoned', outOfTime: true })
  await isStillGood()
})

test('one can be ended from outside, and the next is made', async () => {
  const hanging = thread.plan(hangs!, 30_000)
  thread.abandon()
  expect(await hanging).toEqual({ kind: 'abandoned', outOfTime: false })
  await isStillGood()
})

test('a thread that dies is a fault of that plan alone', async () => {
  expect(await thread.plan(exits!, 30_000)).toEqual({ kind: 'fault', error: expect.stringContaining('code 7') })
  await isStillGood()
  expect(await thread.plan(throws!, 30_000)).toEqual({
    kind: 'fault',
    error: expect.stringContaining('thrown outside'),
  })
  await isStillGood()
})

test('two at once is a mistake of the caller', async () => {
  const first = thread.plan(made!, 30_000)
  expect(() => thread.plan(made!, 30_000)).toThrow(RangeError)
  await first
})

test('a program that is not there is a fault, told once for each plan, and not tried for ever', async () => {
  const lost = startPlanThread(pathToFileURL(path.join(folder, 'no-such.mjs')))
  expect(await lost.plan(made!, 30_000)).toMatchObject({ kind: 'fault' })
  expect(await lost.plan(made!, 30_000)).toMatchObject({ kind: 'fault' })
  await lost.close()
})
