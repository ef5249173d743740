/** What was just tapped and the plan has not taken in yet. */
import type { Plan } from '#core/planning/plan.ts'
import { type TapState, taps } from '../data/outbox.ts'
import { useSelected } from '../data/signal.ts'

/**
 * The last tap that answers a task, unless taken back. It counts only until the plan has taken it in: the new plan says
 * itself what is left.
 */
export function tapOn(shown: readonly TapState[], taskId: string, { input }: Plan): TapState | null {
  const tap = shown.findLast((other) => other.taskId === taskId && !other.takenBack && other.status !== 'refused')
  if (!tap || (tap.position !== null && tap.position <= input.logPosition)) return null
  return tap
}

/** Draws anew only what asks, when what was tapped on its own task changes. */
export const useTapOn = (taskId: string, plan: Plan): TapState | null =>
  useSelected(taps, (shown) => tapOn(shown, taskId, plan))
