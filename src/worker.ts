/** Makes plans, one after another, off the thread that answers calls. Plain data in, plain data out. */
import { parentPort } from 'node:worker_threads'
import type { PlanAnswer, PlanWork } from '#app/plan/work.ts'
import { workOut } from '#app/plan/workOut.ts'

parentPort?.on('message', ({ jobId, planningCase }: PlanWork) => {
  parentPort?.postMessage({ jobId, outcome: workOut(planningCase) } satisfies PlanAnswer)
})
