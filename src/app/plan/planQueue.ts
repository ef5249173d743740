/** The plan that the potter knew when a series of ever better plans began, and the minute it began at. */
export type SeriesStart = { readonly basePlanId: string | null; readonly nowMin: number }

/** One plan to be made: `rung` 0 is the first, quick one of its series. */
export type PlanJob = {
  readonly studioId: string
  readonly rung: number
  /** undefined for the first of a series: it is the one that starts it. */
  readonly start: SeriesStart | undefined
}

/** Of one studio. `rung` is the next to be made; `rungCount`: nothing more to do. */
type Desk = {
  asked: boolean
  rung: number
  start: SeriesStart | undefined
  /** Since when it has waited for a better plan; undefined: it has one. */
  waitingSinceMs: number | undefined
}

/**
 * Which plan is made next. First plans come before better ones and in the order asked for; of the better ones studios
 * take turns. Asking again while a first plan waits is asking once. Knows no clock and makes nothing itself.
 */
export function createPlanQueue(rungCount: number) {
  const desks = new Map<string, Desk>()

  const deskOf = (studioId: string): Desk => {
    const desk = desks.get(studioId) ?? { asked: false, rung: rungCount, start: undefined, waitingSinceMs: undefined }
    desks.set(studioId, desk)
    return desk
  }

  const take = (studioId: string, desk: Desk): PlanJob => {
    if (desk.asked) Object.assign(desk, { asked: false, rung: 0, start: undefined })
    // To the end of the line.
    desks.delete(studioId)
    desks.set(studioId, desk)
    return { studioId, rung: desk.rung, start: desk.start }
  }

  const isCurrent = ({ studioId, rung }: PlanJob): boolean => !deskOf(studioId).asked && deskOf(studioId).rung === rung

  return {
    ask: (studioId: string, nowMs: number): void => {
      const desk = deskOf(studioId)
      desk.asked = true
      desk.waitingSinceMs ??= nowMs
    },

    next: (): PlanJob | undefined => {
      for (const [studioId, desk] of desks) if (desk.asked) return take(studioId, desk)
      for (const [studioId, desk] of desks) if (desk.rung < rungCount) return take(studioId, desk)
      return undefined
    },

    started: ({ studioId }: PlanJob, start: SeriesStart): void => {
      deskOf(studioId).start ??= start
    },

    /** The plan was made: one rung up. @returns whether that was the last */
    made: (job: PlanJob, nowMs: number): boolean => {
      const desk = deskOf(job.studioId)
      if (job.rung > 0 && desk.asked) desk.waitingSinceMs = nowMs
      if (!isCurrent(job)) return false
      desk.rung++
      if (desk.rung === rungCount) desk.waitingSinceMs = undefined
      return desk.rung === rungCount
    },

    /** No better plans until asked again. */
    giveUp: (studioId: string): void => {
      Object.assign(deskOf(studioId), { rung: rungCount, waitingSinceMs: undefined })
    },

    isCurrent,

    waitedMs: (studioId: string, nowMs: number): number => nowMs - (deskOf(studioId).waitingSinceMs ?? nowMs),

    /** How many plans of the series are made; `rungCount`: all, or none is wanted. */
    rungOf: (studioId: string): number => (deskOf(studioId).asked ? 0 : deskOf(studioId).rung),
  }
}
