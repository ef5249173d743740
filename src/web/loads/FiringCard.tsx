import type { KilnRecord } from '#contract/kiln.ts'
import type { Plan, PlannedFiring } from '#core/planning/plan.ts'
import type { LogState } from '#core/logbook/state.ts'
import { usualOpening } from '#core/firing/times.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import { temperatureText } from '#words/amounts.ts'
import type { Context } from '#words/context.ts'
import { leftOutText } from '#words/kilns.ts'
import { capital, durationText, momentText, shortMomentText } from '#words/times.ts'
import { Link } from '#web/app/Link.tsx'
import { newId } from '../data/device.ts'
import { firingStep } from '../data/firingSteps.ts'
import type { Studio } from '../data/queries.ts'
import { type Happened, useLog } from '../data/useLog.ts'
import { CurveDrawing } from './CurveDrawing.tsx'
import { type Opening, openingByReading, reckonedFiring, scheduleOf } from './curve.ts'
import { energyText } from './energy.ts'
import { Folded } from './Folded.tsx'
import { LevelDrawing, StackDrawing } from './LevelDrawing.tsx'
import { Readings } from './Readings.tsx'
import { RoomLeft } from './RoomLeft.tsx'
import { SortKiln } from './SortKiln.tsx'
import type { ShownLoad } from './standing.ts'
import { memberTexts, pieceName } from './ware.ts'

type Props = {
  readonly shown: ShownLoad
  readonly plan: Plan
  readonly studio: Studio
  readonly context: Context
}

const standingTexts = {
  running: 'running',
  cooling: 'cooling',
  loaded: 'loaded, not yet switched on',
  coming: '',
} as const

/** A load to come or under way: when, what is in it, how it stands, how it fires. */
export function FiringCard({ shown, plan, studio, context }: Props) {
  const { firing, logged, standing } = shown
  const kiln = studio.kilns.find(({ id }) => id === firing.kilnId)
  if (!kiln) return null
  const moments = [
    ['Load', firing.loadMin],
    ['Start', firing.startMin],
    ['Shut off', firing.shutOffMin],
    ['Open', firing.openMin],
    ['Unload', firing.unloadMin],
  ] as const
  const said = standingTexts[standing]
  return (
    <article className="load">
      <div className="load-head">
        <h3>
          {capital(firing.kind)} in {kiln.name}
          {said && <span className="quiet"> · {said}</span>}
        </h3>
        <Link to={`/loads?print=${encodeURIComponent(firing.id)}`} className="button link-button">
          Load sheet
        </Link>
      </div>
      <dl className="load-moments">
        {moments.map(([name, minute]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{shortMomentText(minute, context)}</dd>
          </div>
        ))}
      </dl>
      <p>
        {firing.load && `${Math.round(firing.fill * 100)} % of the shelves taken; `}
        {energyText(logged?.energyKwh ?? null, firing.energyKwh, studio.studio.rules, context.locale)}
        {firing.candleHours > 0 && `; candled for ${durationText(firing.candleHours * MIN_PER_HOUR)} first`}.
      </p>
      {standing === 'cooling' && <Cooling shown={shown} kiln={kiln} context={context} />}
      <NextDeed firing={firing} plan={plan} known={logged ?? undefined} />
      <ul>
        {memberTexts(firing, firing.load, studio).map((text, i) => (
          <li key={`${i} ${text}`}>{text}</li>
        ))}
      </ul>
      <LeftOut firing={firing} studio={studio} context={context} />
      {logged?.openedMin && !logged.unloadedMin && <SortKiln firing={logged} studio={studio} />}
      {logged?.firedMin && (
        <details open={standing === 'running'}>
          <summary>Log a temperature, a witness cone or the meter</summary>
          <Readings firingId={logged.id} cone={scheduleOf(firing, studio)?.cone} context={context} />
        </details>
      )}
      {standing === 'coming' && firing.load && <RoomLeft firing={firing} kiln={kiln} studio={studio} />}
      <Folded name={firing.load ? 'Show the shelves and the curve' : 'Show the curve'}>
        {() => <Drawings shown={shown} kiln={kiln} studio={studio} context={context} />}
      </Folded>
    </article>
  )
}

type DrawingsProps = Omit<Props, 'plan'> & { readonly kiln: KilnRecord }

function Drawings({ shown: { firing, logged }, kiln, studio, context }: DrawingsProps) {
  const outcome = reckonedFiring(firing, firing.load, studio)
  return (
    <div className="load-drawings">
      {firing.load?.levels.map((level, i) => (
        <LevelDrawing
          key={`${level.zMm} ${level.shelves[0]?.xMm}`}
          {...{ level, firing, kiln, studio, context }}
          name={`Shelf ${i + 1}`}
        />
      ))}
      <StackDrawing {...{ firing, kiln, studio, context }} />
      {outcome?.kind === 'times' && (
        <CurveDrawing
          curve={outcome.times.curve}
          logged={logged && logged.firedMin !== null ? { ...logged, firedMin: logged.firedMin } : null}
          altitudeM={studio.studio.rules.altitudeM}
          context={context}
        />
      )}
    </div>
  )
}

/** When hands may open and unload it, as planned, and as the last reading has it. */
function Cooling({ shown: { firing, logged }, kiln, context }: Omit<DrawingsProps, 'studio'>) {
  const { units } = context
  const opening = logged && openingByReading(logged, firing.shutOffMin, kiln.firing)
  const { openBelowC, unloadBelowC } = usualOpening
  return (
    <p>
      It may be opened below {temperatureText(openBelowC, units)} and unloaded with bare hands below{' '}
      {temperatureText(unloadBelowC, units)}.{' '}
      {opening
        ? `It read ${temperatureText(opening.readC, units)} ${momentText(opening.readMin, context)}: by that ${openingText(opening, context)}.`
        : 'Log a temperature, and this is reckoned from it.'}
    </p>
  )
}

const openingText = ({ readMin, readC, openMin }: Opening, context: Context): string =>
  readC < usualOpening.unloadBelowC
    ? 'it may be opened and unloaded now'
    : openMin <= readMin
      ? 'it may be opened now'
      : `it may be opened ${momentText(openMin, context)}`

function LeftOut({ firing, studio, context }: Pick<Props, 'studio' | 'context'> & { readonly firing: PlannedFiring }) {
  const left = firing.load?.leftOut ?? []
  if (left.length === 0) return null
  return (
    <div>
      <h4>Left out</h4>
      <ul>
        {left.map(({ key, reason }) => (
          <li key={key}>
            {pieceName(firing, studio, key)}: {leftOutText(reason, context.units)}
          </li>
        ))}
      </ul>
    </div>
  )
}

type DeedProps = { readonly firing: PlannedFiring; readonly plan: Plan } & {
  readonly known: LogState['firings'][number] | undefined
}

/** The one thing that can be said next of this load. */
function NextDeed({ firing, plan, known }: DeedProps) {
  const log = useLog()
  const areBegun = firing.members.every(({ runId }) => plan.runs.some(({ id, underWay }) => id === runId && underWay))
  const waitsForAnother = plan.firings.some(
    ({ kilnId, underWay, loadMin }) => kilnId === firing.kilnId && !underWay && loadMin < firing.loadMin,
  )
  const next = nextOf(firing, known)
  if (!next || (!known && (!areBegun || waitsForAnother))) return null
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
