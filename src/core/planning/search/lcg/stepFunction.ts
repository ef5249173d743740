import type { StepFunction } from '../problem.ts'
import { FAR } from './engine.ts'

/** f(x); far below everything before the first step. */
export function valueAt(steps: StepFunction, x: number): number {
  const step = steps[lastIndex(steps.length, (i) => steps[i]!.fromMin <= x)]
  if (!step) return -FAR
  return step.valueMin + (step.slope === 1 ? x - step.fromMin : 0)
}

/** The least x with f(x) >= k; far beyond everything if there is none. */
export function firstAtLeast(steps: StepFunction, k: number): number {
  // Within the last step that begins below k it may rise to k; else it is the next step's beginning.
  const below = lastIndex(steps.length, (i) => steps[i]!.valueMin < k)
  const next = steps[below + 1]?.fromMin ?? FAR
  const step = steps[below]
  return step?.slope === 1 ? Math.min(next, step.fromMin + k - step.valueMin) : next
}

/** The greatest x with f(x) <= k. */
export function lastAtMost(steps: StepFunction, k: number): number {
  return firstAtLeast(steps, k + 1) - 1
}

/** The last index for which a test that turns from true to false once is true, or -1. */
function lastIndex(count: number, test: (index: number) => boolean): number {
  let low = 0
  let high = count
  while (low < high) {
    const middle = (low + high) >> 1
    if (test(middle)) low = middle + 1
    else high = middle
  }
  return low - 1
}
