/** What a firing cost in ware: said when the kiln was sorted. */
import type { FiringState, LossRecord } from '#core/logbook/state.ts'
import { countText } from '#words/amounts.ts'
import { lossTexts } from '#words/trade.ts'
import type { Studio } from '../data/queries.ts'
import { designName } from './ware.ts'

type Fired = Pick<FiringState, 'kind' | 'unloadedMin' | 'members'>

/** "1 Tea tray: cracked": the losses told in the moment in which this kiln was emptied, of what was in it. */
export const lostTexts = (
  { kind, unloadedMin, members }: Fired,
  losses: readonly LossRecord[],
  studio: Studio,
): string[] =>
  losses
    .filter(({ minute, stage }) => minute === unloadedMin && stage === `in ${kind}`)
    .filter(({ designId }) => members.some((member) => member.designId === designId))
    .map(({ designId, count, cause }) => {
      const what = countText(count, designName(studio, designId))
      return cause === null ? what : `${what}: ${lossTexts[cause]}`
    })
