/**
 * Why something is so, as a code and the amounts its sentence needs. `src/words` makes the sentences; its table is typed
 * by this one, so a code without a sentence does not compile. Names in `params` are the potter's own names.
 */
export type PlanningReasonParams = {
  // What could not be placed, and what binds.
  'no-making-hours': { readonly work: string }
  'nobody-may': { readonly work: string; readonly step: string }
  'not-enough-hours': {
    readonly work: string
    readonly neededMin: number
    readonly freeMin: number
    readonly untilMin: number
  }
  'step-longer-than-any-session': { readonly step: string; readonly neededMin: number; readonly longestMin: number }
  'window-never-opens': { readonly step: string; readonly part: string }
  'window-closes-while-nobody-there': { readonly step: string; readonly part: string; readonly closeMin: number }
  'parts-dry-apart': { readonly step: string; readonly part: string }
  'no-board-room': { readonly spot: string; readonly neededBoards: number; readonly boards: number }
  'no-mould': { readonly mould: string }
  'no-clay': { readonly clay: string; readonly neededKg: number; readonly onHandKg: number }
  'no-glaze': { readonly glaze: string }
  'too-large-for-every-kiln': { readonly design: string }
  'waits-for-room': { readonly count: number }
  'no-kiln-fires': { readonly schedule: string }
  'kilns-full': { readonly untilMin: number }
  'nobody-at-shut-off': { readonly kiln: string }
  'glaze-does-not-suit': { readonly glaze: string; readonly schedule: string }
  'due-in-the-past': { readonly dueMin: number }
  'too-late-to-start': { readonly earliestReadyMin: number; readonly dueMin: number }
  'never-dry': { readonly part: string }
  'pins-contradict': { readonly step: string; readonly pinnedMin: number }
  'design-has-no-clay-step': { readonly design: string }
  'search-stopped': { readonly triedCount: number }
  // Remedies, each tried through the planner before it is said.
  'remedy-more-hours': { readonly maker: string; readonly startMin: number; readonly endMin: number }
  'remedy-later-date': { readonly readyMin: number }
  'remedy-cover': { readonly cover: string }
  'remedy-fewer': { readonly count: number }
  'remedy-extra-firing': { readonly kiln: string }
  'remedy-more-clay': { readonly clay: string; readonly massKg: number }
}

export type PlanningReasonCode = keyof PlanningReasonParams

export type PlanningReason = {
  readonly [Code in PlanningReasonCode]: { readonly code: Code; readonly params: PlanningReasonParams[Code] }
}[PlanningReasonCode]

/** Each reason once, in the order in which they came first. */
export const distinctReasons = (reasons: readonly PlanningReason[]): PlanningReason[] => [
  ...new Map(reasons.map((reason) => [JSON.stringify(reason), reason])).values(),
]
