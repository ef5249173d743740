import type { PlannedFiring } from '#core/planning/plan.ts'
import { cautionText } from '#words/cautions.ts'
import type { Context } from '#words/context.ts'
import { scheduleTexts } from '#words/kilns.ts'
import { capital, momentText } from '#words/times.ts'
import { Sheet } from '#web/app/Sheet.tsx'
import type { Studio } from '../data/queries.ts'
import { CurveDrawing } from './CurveDrawing.tsx'
import { reckonedFiring, scheduleOf } from './curve.ts'
import { LevelDrawing, StackDrawing } from './LevelDrawing.tsx'
import { sheetCautions, sheetLevels } from './loadSheet.ts'
import { memberTexts } from './ware.ts'

type Props = { readonly firing: PlannedFiring; readonly studio: Studio; readonly context: Context }

/** All that is wanted beside the kiln, on paper. */
export function LoadSheet({ firing, studio, context }: Props) {
  const kiln = studio.kilns.find(({ id }) => id === firing.kilnId)
  const schedule = scheduleOf(firing, studio)
  const outcome = reckonedFiring(firing, firing.load, studio)
  if (!kiln) return null
  const moments = [
    ['Load', firing.loadMin],
    ['Switch on', firing.startMin],
    ...firing.switchUpsMin.map((minute) => ['Turn up', minute] as const),
    ['Be there at shut-off', firing.shutOffMin],
    ['Open', firing.openMin],
    ['Unload', firing.unloadMin],
  ] as const
  return (
    <Sheet back="/loads">
      <h1>
        {capital(firing.kind)} in {kiln.name}
      </h1>
      <section className="printed-part">
        <h2>When</h2>
        <ul>
          {moments.map(([name, minute]) => (
            <li key={`${name} ${minute}`}>
              <span className="printed-box" /> {name}: {momentText(minute, context)}
            </li>
          ))}
        </ul>
      </section>
      <section className="printed-part">
        <h2>What goes in</h2>
        <ul>
          {memberTexts(firing, firing.load, studio).map((text, i) => (
            <li key={`${i} ${text}`}>{text}</li>
          ))}
        </ul>
      </section>
      <section>
        <h2>Put in, from the floor up</h2>
        {!firing.load && <p>How it stands was not planned piece by piece.</p>}
        {sheetLevels(firing, kiln.space, studio, context.units).map(({ name, posts, shelves, height, pieces }, i) => (
          <div key={name} className="printed-part printed-level">
            <div>
              <h3>
                <span className="printed-box" /> {name}
              </h3>
              <p>
                {capital(posts)}; {shelves}; room for ware {height} high.
              </p>
              <ul>
                {pieces.map((text) => (
                  <li key={text}>{text}</li>
                ))}
              </ul>
            </div>
            <LevelDrawing {...{ firing, kiln, studio, context, name }} level={firing.load!.levels[i]!} />
          </div>
        ))}
        <div className="printed-part">
          <StackDrawing {...{ firing, kiln, studio, context }} />
        </div>
      </section>
      <section className="printed-part">
        <h2>Firing schedule{schedule ? `: ${schedule.name}` : ''}</h2>
        {schedule && (
          <ol>
            {scheduleTexts(schedule, context.units).map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ol>
        )}
        {schedule?.cone && <p>Witness cone {schedule.cone}: trust it before the reading.</p>}
        {outcome?.kind === 'times' && (
          <CurveDrawing
            curve={outcome.times.curve}
            logged={null}
            altitudeM={studio.studio.rules.altitudeM}
            context={context}
          />
        )}
      </section>
      <section className="printed-part">
        <h2>Beware</h2>
        <ul>
          {sheetCautions(firing, studio).map((code) => (
            <li key={code}>{cautionText(code)}</li>
          ))}
        </ul>
      </section>
    </Sheet>
  )
}
