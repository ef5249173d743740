/** What a run can be expected to bring through from where it is. */
import type { LossRates } from '#core/clay/types.ts'
import type { RunStage } from '#core/logbook/state.ts'

/** Expected share of pieces that come out good, from this stage on; seconds do not count. 0-1 */
export function yieldRatio({ dryingRatio, bisqueRatio, glazeRatio, secondRatio }: LossRates, stage: RunStage): number {
  const glaze = (1 - glazeRatio) * (1 - secondRatio)
  switch (stage) {
    case 'begun':
    case 'clay':
    case 'drying':
      return (1 - dryingRatio) * (1 - bisqueRatio) * glaze
    case 'in bisque':
      return (1 - bisqueRatio) * glaze
    case 'bisque':
    case 'glazed':
    case 'in glaze':
    case 'refire':
      return glaze
    case 'fired':
      return 1
    case 'gone':
      return 0
  }
}
