/** A few things told of a run by its job alone. */
import type { DesignStep } from '#core/studio/studio.ts'
import type { Job } from '../jobs.ts'

/** Where a run under way stands. */
export const spotNow = (job: Job): string => job.state?.waits.at(-1)?.spotId ?? ''
/** Ware boards that a run takes. */
export const boardsOf = ({ count, design }: Job): number => Math.ceil(count / design.piecesPerBoard)
const clayKinds = new Set(['cut', 'drape', 'release', 'join', 'surface'])
/** A design's steps on clay, in their order. */
export const claySteps = ({ design }: Job): readonly DesignStep[] =>
  design.steps.filter(({ kind }) => clayKinds.has(kind))

/** Whether it is wanted as soon as it can be, rather than by its date. */
export const isWantedSoon = ({ allotments }: Job, soonOrderIds: readonly string[]): boolean =>
  allotments.some(({ orderId }) => orderId !== null && soonOrderIds.includes(orderId))
