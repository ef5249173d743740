import { eventsOn } from '#core/firing/events.ts'
import type { CurvePoint } from '#core/firing/types.ts'
import type { FiringState } from '#core/logbook/state.ts'
import type { Minute } from '#core/time.ts'
import { celsiusFromFahrenheit, fahrenheitFromCelsius, MIN_PER_HOUR } from '#core/units.ts'
import { temperatureText } from '#words/amounts.ts'
import type { Context, Units } from '#words/context.ts'
import { coneBendTexts, firingEventTexts } from '#words/kilns.ts'
import { capital, durationText, momentText } from '#words/times.ts'
import { type Frame, frameFor, pathOf, placeOf, tempOnCurve, ticksUpTo } from './curve.ts'

type Props = {
  readonly curve: readonly CurvePoint[]
  /** When the firing began, and what was read of it; null: it has not begun. */
  readonly logged: (Pick<FiringState, 'readings' | 'cones'> & { readonly firedMin: Minute }) | null
  readonly altitudeM: number
  readonly context: Context
}

/** Temperature over time, with what happens to the ware and what was read; the lists below tell the same. */
export function CurveDrawing({ curve, logged, altitudeM, context }: Props) {
  const { units } = context
  const readings = (logged?.readings ?? []).map(({ minute, tempC }) => ({ atMin: minute - logged!.firedMin, tempC }))
  const frame = frameFor(curve, readings)
  const hottestC = Math.max(...curve.map(({ tempC }) => tempC))
  const events = eventsOn(curve, altitudeM)
  const { widthPx, heightPx } = frame
  const after = (minute: number) => durationText(Math.max(0, minute))
  return (
    <figure className="drawing">
      <svg
        viewBox={`-52 -8 ${widthPx + 60} ${heightPx + 32}`}
        role="img"
        aria-label={`Firing curve, up to ${temperatureText(hottestC, units)} in ${durationText(frame.endMin)} until it is cool`}
      >
        {events.map(({ code, direction, startMin, endMin }, i) => {
          const from = placeOf(startMin, 0, frame).x
          return (
            <g key={`${code} ${direction}`}>
              <rect
                className="curve-event"
                x={from}
                y={0}
                width={Math.max(1, placeOf(endMin, 0, frame).x - from)}
                height={heightPx}
              />
              <text x={from + 2} y={12 + (i % 4) * 13}>
                {i + 1}
              </text>
            </g>
          )
        })}
        <Scales frame={frame} units={units} />
        <path className="curve-line" d={pathOf(curve, frame)} />
        {readings.map(({ atMin, tempC }) => {
          const { x, y } = placeOf(atMin, tempC, frame)
          return <circle key={`${atMin} ${tempC}`} className="curve-read" cx={x} cy={y} r={4} />
        })}
        {logged?.cones.map(({ minute, cone, bend }) => {
          const atMin = minute - logged.firedMin
          const { x, y } = placeOf(atMin, tempOnCurve(curve, atMin) ?? hottestC, frame)
          return (
            <path
              key={`${minute} ${cone} ${bend}`}
              className="curve-cone"
              d={`M${x - 5} ${y + 5}L${x} ${y - 9}L${x + 5} ${y + 5}Z`}
            />
          )
        })}
      </svg>
      <figcaption>
        {logged && readings.length + logged.cones.length > 0 && (
          <ul className="small curve-said">
            {logged.readings.map(({ minute, tempC }) => {
              const reckoned = tempOnCurve(curve, minute - logged.firedMin)
              return (
                <li key={`${minute} ${tempC}`}>
                  ● {momentText(minute, context)}: {temperatureText(tempC, units)} read
                  {reckoned !== undefined && `, ${temperatureText(reckoned, units)} reckoned`}
                </li>
              )
            })}
            {logged.cones.map(({ minute, cone, bend }) => (
              <li key={`${minute} ${cone} ${bend}`}>
                ▲ {momentText(minute, context)}: cone {cone} {coneBendTexts[bend]}
              </li>
            ))}
          </ul>
        )}
        <ol className="small">
          {events.map(({ code, direction, startMin, endMin }) => (
            <li key={`${code} ${direction}`}>
              {capital(firingEventTexts[code])}: {after(startMin)} to {after(endMin)} after the start
            </li>
          ))}
        </ol>
      </figcaption>
    </figure>
  )
}

/** Lines at round temperatures and hours, in the reader's units. */
function Scales({ frame, units }: { readonly frame: Frame; readonly units: Units }) {
  const { widthPx, heightPx, topC, endMin } = frame
  const degrees =
    units === 'metric'
      ? ticksUpTo(topC, 50)
      : ticksUpTo(fahrenheitFromCelsius(topC), 100).map((tempF) => celsiusFromFahrenheit(tempF))
  return (
    <g className="curve-scale">
      {degrees.map((tempC) => {
        const { y } = placeOf(0, tempC, frame)
        return (
          <g key={tempC}>
            <line x1={0} x2={widthPx} y1={y} y2={y} />
            <text x={-4} y={y + 4} textAnchor="end">
              {temperatureText(tempC, units).replace(' ', '')}
            </text>
          </g>
        )
      })}
      {ticksUpTo(endMin / MIN_PER_HOUR, 1).map((hours) => {
        const { x } = placeOf(hours * MIN_PER_HOUR, 0, frame)
        return (
          <text key={hours} x={x} y={heightPx + 16} textAnchor="middle">
            {hours} h
          </text>
        )
      })}
      <path d={`M0 0V${heightPx}H${widthPx}`} />
    </g>
  )
}
