import { firingTimes } from '#core/firing/times.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import { fullLoadOf } from '#core/planning/facts/pieces.ts'
import type { Plan, PlannedFiring } from '#core/planning/plan.ts'
import type { LogState } from '#core/logbook/state.ts'
import type { Context } from '#words/context.ts'
import { capital, durationText, momentText } from '#words/times.ts'
import { newId } from '../data/device.ts'
import { firingStep } from '../data/firingSteps.ts'
import type { Studio } from '../data/queries.ts'
import { type Happened, useLog } from '../data/useLog.ts'
import { CurveDrawing } from './CurveDrawing.tsx'
import { LevelDrawing, StackDrawing } from './LevelDrawing.tsx'
import { countsByRun } from './drawing.ts'
import { SortKiln } from './SortKiln.tsx'

type Props = {
  readonly firing: PlannedFiring
  readonly plan: Plan
  readonly studio: Studio
  readonly state: LogState
  readonly context: Context
}

/** A load to come or under way: when, what is in it, how it stands, how it fires. */
export function FiringCard({ firing, plan, studio, state, context }: Props) {
  const kiln = studio.kilns.find(({ id }) => id === firing.kilnId)
  if (!kiln) return null
  const schedule = studio.firingSchedules.find(({ id }) => id === firing.scheduleId)
  const outcome = schedule && firingTimes(schedule, kiln.firing, fullLoadOf(kiln, firing.kind))
  const known = state.firings.find(({ id }) => id === firing.id)
  const placed = firing.load ? countsByRun(firing.load) : undefined
  const cost = firing.energyKwh * studio.studio.rules.pricePerKwh
  const moments = [
    ['Load', firing.loadMin],
    ['Start', firing.startMin],
    ['Shut off', firing.shutOffMin],
    ['Open', firing.openMin],
    ['Unload', firing.unloadMin],
  ] as const
  return (
    <article className="load">
      <h2>
        {capital(firing.kind)} in {kiln.name}
      </h2>
      <dl className="load-moments">
        {moments.map(([name, minute]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{momentText(minute, context)}</dd>
          </div>
        ))}
      </dl>
      <p>
        {Math.round(firing.fill * 100)} % of the shelves taken; {Math.round(firing.energyKwh)} kWh,{' '}
        {new Intl.NumberFormat(context.locale, { maximumFractionDigits: 2 }).format(cost)} at{' '}
        {studio.studio.rules.pricePerKwh} per kWh
        {firing.candleHours > 0 && `; candled for ${durationText(firing.candleHours * MIN_PER_HOUR)} first`}.
      </p>
      <NextDeed firing={firing} plan={plan} known={known} />
      <ul>
        {firing.members.map(({ runId, designId, glazeId, count }) => {
          const isTold = placed && runId !== null
          return (
            <li key={`${runId} ${designId} ${glazeId}`}>
              {count} {studio.designs.find(({ id }) => id === designId)?.name ?? designId}
              {isTold && (placed.get(runId) ?? 0) < count && `, ${count - (placed.get(runId) ?? 0)} without a place`}
            </li>
          )
        })}
      </ul>
      {firing.load && firing.load.leftOut.length > 0 && <p>Left out: {firing.load.leftOut.length} pieces.</p>}
      {known?.openedMin && !known.unloadedMin && <SortKiln firing={known} studio={studio} />}
      <details>
        <summary>Show the shelves and the curve</summary>
        <div className="load-drawings">
          {firing.load?.levels.map((level, i) => (
            <LevelDrawing
              key={`${level.zMm} ${level.shelves[0]?.xMm}`}
              {...{ level, firing, kiln, studio, context }}
              name={`Shelf ${i + 1}`}
            />
          ))}
          {firing.load && <StackDrawing {...{ firing, kiln, studio, context }} />}
          {outcome?.kind === 'times' && <CurveDrawing curve={outcome.times.curve} context={context} />}
        </div>
        <p className="quiet small">The curve is of a full kiln, without candling.</p>
      </details>
    </article>
  )
}

type DeedProps = Pick<Props, 'firing' | 'plan'> & { readonly known: LogState['firings'][number] | undefined }

/** The one thing that can be said next of this load. */
function NextDeed({ firing, plan, known }: DeedProps) {
  const log = useLog()
  const areBegun = firing.members.every(({ runId }) => plan.runs.some(({ id, underWay }) => id === runId && underWay))
  const next = nextOf(firing, known)
  if (!next || (!known && !areBegun)) return null
  return (
    <button type="button" className="button main" onClick={() => log({ happened: [next.happened], said: next.name })}>
      {next.name}
    </button>
  )
}

function nextOf(firing: PlannedFiring, known: DeedProps['known']): { name: string; happened: Happened } | undefined {
  if (!known) return { name: 'Loaded', happened: firingStep('load', firing, newId('firing')) }
  if (known.firedMin === null) return { name: 'Started', happened: firingStep('start', firing, known.id) }
  if (known.openedMin === null) return { name: 'Opened', happened: firingStep('open', firing, known.id) }
  return undefined
}
