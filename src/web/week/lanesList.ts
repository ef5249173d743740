/** The lanes as a list, for whoever does not see the drawing; hands are told by the sessions, the air by its own list. */
import type { Context } from '#words/context.ts'
import { capital, spanText } from '#words/times.ts'
import type { Lane } from './lane.ts'

export type LaneSaid = { readonly key: string; readonly said: string }

export const lanesList = (lanes: readonly Lane[], context: Context): LaneSaid[] =>
  lanes
    .filter(
      ({ isHeading, makerId, bars }) => !isHeading && makerId === undefined && bars.every(({ kind }) => kind !== 'air'),
    )
    .map(({ key, name, bars }) => {
      const said = bars.map(({ label, startMin, endMin }) => `${label} ${spanText(startMin, endMin, context)}`)
      return { key, said: `${name}: ${capital(said.join('; '))}.` }
    })
