import { Worker } from 'node:worker_threads'
import type { PlanningCase } from '#core/planning/plan.ts'
import type { PlanAnswer, PlanOutcome, PlanWork } from './work.ts'

/** A thread that makes one plan at a time and lives from job to job. */
export type PlanThread = {
  /** @throws RangeError while another plan is being made */
  readonly plan: (planningCase: PlanningCase, limitMs: number) => Promise<PlanOutcome>
  /** Ends the plan being made, if any, at once. */
  readonly abandon: () => void
  readonly close: () => Promise<void>
}

type Job = { readonly id: number; readonly settle: (outcome: PlanOutcome) => void }

/**
 * A search that hangs or eats its memory takes the thread with it, not the server: the next plan gets a new one.
 * @param program the built worker, `dist/server/worker.js`
 */
export function startPlanThread(program: URL): PlanThread {
  let job: Job | undefined
  let jobCount = 0
  // Started before it is asked for, so that the first plan need not wait for the program to load.
  let worker: Worker | undefined = start()

  function start(): Worker {
    const started = new Worker(program)
    started.on('message', ({ jobId, outcome }: PlanAnswer) => {
      if (job?.id === jobId) settle(outcome)
    })
    started.on('error', (error) => lose(started, error.stack ?? String(error)))
    started.on('exit', (code) => lose(started, `The planning thread ended with code ${code}.`))
    started.unref()
    return started
  }

  function settle(outcome: PlanOutcome): void {
    const settled = job
    job = undefined
    settled?.settle(outcome)
  }

  /** Not started anew before it is needed: one that dies as it starts would die for ever. */
  function lose(gone: Worker, error: string): void {
    if (gone !== worker) return
    worker = undefined
    settle({ kind: 'fault', error })
  }

  function abandon(outOfTime: boolean): void {
    if (!job) return
    const gone = worker
    worker = start()
    void gone?.terminate()
    settle({ kind: 'abandoned', outOfTime })
  }

  return {
    plan: (planningCase, limitMs) => {
      if (job) throw new RangeError('The thread makes one plan at a time.')
      return new Promise((resolve) => {
        const limit = setTimeout(() => abandon(true), limitMs)
        const id = ++jobCount
        job = {
          id,
          settle: (outcome) => {
            clearTimeout(limit)
            resolve(outcome)
          },
        }
        worker ??= start()
        worker.postMessage({ jobId: id, planningCase } satisfies PlanWork)
      })
    },
    abandon: () => abandon(false),
    close: async () => {
      const last = worker
      worker = undefined
      await last?.terminate()
      settle({ kind: 'abandoned', outOfTime: false })
    },
  }
}
