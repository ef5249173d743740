/** A step on its way to another moment or maker: what a drag or a key makes of it, and what speaks against it. */
import type { RunTask } from '#core/planning/plan.ts'
import type { Interval, Minute } from '#core/time.ts'
import type { Studio } from '../data/queries.ts'

/** Where a step would stand. */
export type Place = { readonly makerId: string; readonly startMin: Minute }

/** A drag keeps to these, so that the finger need not be finer than the drawing; a field takes any minute. */
export const SNAP_MIN = 15
const LARGE_STEP_MIN = 60

export type Bounds = { readonly earliestMin: Minute; readonly latestMin: Minute }

/** A step begins no sooner than now, and is shown whole. */
export const boundsOf = ({ startMin, endMin }: RunTask, nowMin: Minute, toMin: Minute): Bounds => ({
  earliestMin: Math.ceil(nowMin / SNAP_MIN) * SNAP_MIN,
  latestMin: toMin - (endMin - startMin),
})

/** @param byMin how far the pointer went along the lanes; a step of a few minutes stays where it was */
export function draggedTo(from: Place, byMin: number, makerId: string, bounds: Bounds): Place {
  if (Math.abs(byMin) < SNAP_MIN / 2) return { makerId, startMin: from.startMin }
  const startMin = Math.round((from.startMin + byMin) / SNAP_MIN) * SNAP_MIN
  return { makerId, startMin: clamped(startMin, bounds) }
}

type Key = { readonly key: string; readonly shiftKey: boolean }

/**
 * Left and right by a quarter of an hour (with shift by an hour), up and down through those who may do it.
 * @returns undefined for a key that moves nothing
 */
export function keyedTo(
  from: Place,
  { key, shiftKey }: Key,
  ableIds: readonly string[],
  bounds: Bounds,
): Place | undefined {
  const stepMin = shiftKey ? LARGE_STEP_MIN : SNAP_MIN
  switch (key) {
    case 'ArrowLeft':
      return { ...from, startMin: clamped(Math.ceil(from.startMin / SNAP_MIN) * SNAP_MIN - stepMin, bounds) }
    case 'ArrowRight':
      return { ...from, startMin: clamped(Math.floor(from.startMin / SNAP_MIN) * SNAP_MIN + stepMin, bounds) }
    case 'ArrowUp':
    case 'ArrowDown': {
      const by = key === 'ArrowUp' ? -1 : 1
      const at = ableIds.indexOf(from.makerId)
      const makerId = ableIds[(at + by + ableIds.length) % ableIds.length]
      return makerId === undefined ? undefined : { ...from, makerId }
    }
    default:
      return undefined
  }
}

const clamped = (startMin: Minute, { earliestMin, latestMin }: Bounds): Minute =>
  Math.max(earliestMin, Math.min(latestMin, startMin))

/** Makers who do the work that a step needs; all, where the step is not known. */
export function ableFor(
  { runId, stepId }: RunTask,
  designOf: (runId: string) => string | undefined,
  studio: Studio,
): string[] {
  const design = studio.designs.find(({ id }) => id === designOf(runId))
  const needs = design?.steps.find(({ id }) => id === stepId)?.needs
  return studio.makers.filter(({ skills }) => needs === undefined || skills.includes(needs)).map(({ id }) => id)
}

/** What can be seen without asking: the plan itself is asked all the same. */
export type Doubt =
  | { readonly kind: 'before-window' | 'after-window' | 'outside-hours' | 'past' }
  | { readonly kind: 'busy'; readonly with: RunTask }

export type Circumstances = {
  readonly task: RunTask
  /** Making hours of the maker at that place; undefined: not known. */
  readonly hours: readonly Interval[] | undefined
  readonly others: readonly RunTask[]
  readonly nowMin: Minute
}

export function doubtsOf({ makerId, startMin }: Place, { task, hours, others, nowMin }: Circumstances): Doubt[] {
  const endMin = startMin + (task.endMin - task.startMin)
  const busy = others.find(
    (other) => other.id !== task.id && other.makerId === makerId && other.startMin < endMin && other.endMin > startMin,
  )
  const { window } = task
  return [
    ...(startMin < nowMin ? [{ kind: 'past' as const }] : []),
    ...(window && startMin < window.openMin ? [{ kind: 'before-window' as const }] : []),
    ...(window && endMin > window.closeMin ? [{ kind: 'after-window' as const }] : []),
    ...(hours && !hours.some((span) => span.startMin <= startMin && endMin <= span.endMin)
      ? [{ kind: 'outside-hours' as const }]
      : []),
    ...(busy ? [{ kind: 'busy' as const, with: busy }] : []),
  ]
}
