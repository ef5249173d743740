import type { Plan, PlanningCase } from '#core/planning/plan.ts'
import type { Happenings } from '#app/happenings.ts'
import { faultText } from '#store/troubles.ts'
import { createPlanQueue, type PlanJob, type SeriesStart } from './planQueue.ts'
import type { PlanThread } from './planThread.ts'
import type { PlanOutcome } from './work.ts'

/** Makes the plan follow what happens, in the background, for as many studios as ask. */
export type Planner = {
  /** Something happened: a first plan follows as soon as the thread is free, better ones after it. */
  readonly ask: (studioId: string) => void
  /** No better plans for now; the last one saved stands. */
  readonly stop: (studioId: string) => void
  readonly progressOf: (studioId: string) => PlanningProgress
  /** A plan made to answer a question, and not saved. It comes before all others. */
  readonly tryOut: (planningCase: PlanningCase) => Promise<PlanOutcome>
  readonly close: () => Promise<void>
}

export type PlanningProgress = {
  readonly doing: 'nothing' | 'first plan' | 'better plan'
  /** Plans of the series that are made, of how many. */
  readonly made: number
  readonly of: number
}

/** How the planner comes by its cases, and where its plans go. */
export type PlanBook = {
  /** The case of the newest log. `start`: what the first plan of this series was made from; undefined for that first one. */
  readonly load: (studioId: string, effort: number, start: SeriesStart | undefined) => Promise<PlanningCase>
  /** @returns false if the plan was not kept: the one that is there is as new and no worse */
  readonly save: (studioId: string, plan: Plan) => Promise<boolean>
}

export type PlannerSettings = {
  readonly book: PlanBook
  readonly thread: PlanThread
  readonly happenings: Happenings
  /** What went wrong, for the server's log. */
  readonly report: (event: string, details: Readonly<Record<string, unknown>>) => void
  /** Rising; the first gives a plan within a second or two. */
  readonly efforts: readonly number[]
  /** A plan that takes longer than this is stopped; the one before stays. */
  readonly limitMs: number
  /** After so long without a better plan, one is made to the end though more happens meanwhile. */
  readonly patienceMs: number
  readonly clockMs: () => number
}

/** Each takes seconds: whoever comes after so many would wait for minutes. */
const MOST_QUESTIONS = 10

type Question = { readonly planningCase: PlanningCase; readonly answer: (outcome: PlanOutcome) => void }

/**
 * One thread, one plan at a time. What happens while a better plan is being made puts an end to it, since its answer would
 * be to yesterday's question; a first plan is always made to the end, so that under a stream of taps plans keep coming.
 */
export function createPlanner(settings: PlannerSettings): Planner {
  const { thread, efforts, limitMs, patienceMs, clockMs, happenings } = settings
  const queue = createPlanQueue(efforts.length)
  const questions: Question[] = []
  let making: { readonly job: PlanJob; overtaken: boolean } | undefined
  let isWorking = false
  let working: Promise<void> | undefined
  let closed = false

  const makeWay = () => {
    if (!making || making.job.rung === 0 || queue.waitedMs(making.job.studioId, clockMs()) >= patienceMs) return
    making.overtaken = true
    thread.abandon()
  }

  const work = () => {
    if (!closed && !isWorking) working = workThrough()
  }

  async function workThrough(): Promise<void> {
    isWorking = true
    try {
      while (!closed) {
        const question = questions.shift()
        const job = question ? undefined : queue.next()
        if (question) question.answer(await thread.plan(question.planningCase, limitMs))
        else if (job) await make(job)
        else return
      }
    } finally {
      isWorking = false
    }
  }

  async function make(job: PlanJob): Promise<void> {
    const current = { job, overtaken: false }
    making = current
    try {
      const planningCase = await settings.book.load(job.studioId, efforts[job.rung]!, job.start)
      queue.started(job, planningCase.input)
      // Overtaken, stopped or closed while the case was read.
      if (current.overtaken || closed || (job.rung > 0 && !queue.isCurrent(job))) return
      const { logPosition, effort } = planningCase.input
      happenings.tell(job.studioId, { kind: 'planning', logPosition, effort })
      const outcome = await thread.plan(planningCase, limitMs)
      const isMade = await settle(settings, job.studioId, planningCase, outcome)
      if (isMade ? queue.made(job, clockMs()) : !current.overtaken && queue.isCurrent(job)) end(job.studioId)
    } catch (error) {
      settings.report('planning failed', { studioId: job.studioId, error: faultText(error) })
      end(job.studioId)
    } finally {
      making = undefined
    }
  }

  /** Better plans are not tried where one broke down or took too long: with more effort it would again. */
  function end(studioId: string): void {
    queue.giveUp(studioId)
    happenings.tell(studioId, { kind: 'settled' })
  }

  return {
    ask: (studioId) => {
      queue.ask(studioId, clockMs())
      makeWay()
      work()
    },
    stop: (studioId) => {
      end(studioId)
      if (making?.job.studioId === studioId && making.job.rung > 0) thread.abandon()
    },
    progressOf: (studioId) => {
      const made = queue.rungOf(studioId)
      return {
        doing: made === 0 ? 'first plan' : made < efforts.length ? 'better plan' : 'nothing',
        made,
        of: efforts.length,
      }
    },
    tryOut: (planningCase) =>
      new Promise((answer) => {
        if (questions.length >= MOST_QUESTIONS) return answer({ kind: 'abandoned', outOfTime: true })
        questions.push({ planningCase, answer })
        makeWay()
        work()
      }),
    close: async () => {
      closed = true
      await thread.close()
      await working
      for (const { answer } of questions) answer({ kind: 'abandoned', outOfTime: false })
    },
  }
}

/** Saves the plan if it may be shown, and tells. @returns whether there was one */
async function settle(
  { book, happenings, report }: PlannerSettings,
  studioId: string,
  { input }: PlanningCase,
  outcome: PlanOutcome,
): Promise<boolean> {
  const { logPosition, effort } = input
  if (outcome.kind === 'abandoned') {
    if (outcome.outOfTime) report('planning out of time', { studioId, input })
    return false
  }
  if (outcome.kind === 'fault' || outcome.breaches.length > 0) {
    const why = outcome.kind === 'fault' ? 'fault' : 'breach'
    report(`planning ${why}`, { studioId, input, details: outcome.kind === 'fault' ? outcome.error : outcome.breaches })
    happenings.tell(studioId, { kind: 'not-planned', logPosition, why })
    return false
  }
  if (await book.save(studioId, outcome.plan)) {
    happenings.tell(studioId, { kind: 'planned', planId: outcome.plan.id, logPosition, effort })
  }
  return true
}
