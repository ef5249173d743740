import type { FiringState, LossRecord } from '#core/logbook/state.ts'
import type { Context } from '#words/context.ts'
import { capital, shortMomentText } from '#words/times.ts'
import type { Studio } from '../data/queries.ts'
import { CurveDrawing } from './CurveDrawing.tsx'
import { reckonedFiring, scheduleOf } from './curve.ts'
import { energyText } from './energy.ts'
import { Folded } from './Folded.tsx'
import { lostTexts } from './lost.ts'
import { Readings } from './Readings.tsx'
import { memberTexts } from './ware.ts'

type Props = {
  readonly firing: FiringState
  readonly losses: readonly LossRecord[]
  readonly studio: Studio
  readonly context: Context
}

/** A firing as the logbook has it. */
export function PastCard({ firing, losses, studio, context }: Props) {
  const lost = lostTexts(firing, losses, studio)
  const kiln = studio.kilns.find(({ id }) => id === firing.kilnId)?.name ?? firing.kilnId
  const outcome = reckonedFiring(firing, null, studio)
  const reckonedKwh = outcome?.kind === 'times' ? (outcome.times.curve.at(-1)?.usedKwh ?? null) : null
  const moments = [
    ['Loaded', firing.loadedMin],
    ['Started', firing.firedMin],
    ['Opened', firing.openedMin],
    ['Emptied', firing.unloadedMin],
  ] as const
  return (
    <article className="load">
      <h3>
        {capital(firing.kind)} in {kiln}
      </h3>
      <dl className="load-moments">
        {moments.map(([name, minute]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{minute === null ? 'not said' : shortMomentText(minute, context)}</dd>
          </div>
        ))}
      </dl>
      <p>{capital(energyText(firing.energyKwh, reckonedKwh, studio.studio.rules, context.locale))}.</p>
      <ul>
        {memberTexts(firing, null, studio).map((text, i) => (
          <li key={`${i} ${text}`}>{text}</li>
        ))}
      </ul>
      <p>{lost.length === 0 ? 'Nothing was lost in it.' : `Lost: ${lost.join(', ')}.`}</p>
      {firing.firedMin !== null && (
        <>
          {outcome?.kind === 'times' && (
            <Folded name="Show the curve">
              {() => (
                <div className="load-drawings">
                  <CurveDrawing
                    curve={outcome.times.curve}
                    logged={{ ...firing, firedMin: firing.firedMin! }}
                    altitudeM={studio.studio.rules.altitudeM}
                    context={context}
                  />
                </div>
              )}
            </Folded>
          )}
          <details>
            <summary>Log a witness cone or the meter</summary>
            <Readings firingId={firing.id} cone={scheduleOf(firing, studio)?.cone} context={context} />
          </details>
        </>
      )}
    </article>
  )
}
