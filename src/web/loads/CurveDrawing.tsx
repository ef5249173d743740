import { eventsOn } from '#core/firing/events.ts'
import type { CurvePoint, FiringEventCode } from '#core/firing/types.ts'
import { temperatureText } from '#words/amounts.ts'
import type { Context } from '#words/context.ts'
import { capital, durationText } from '#words/times.ts'

const width = 640
const height = 200
const topC = 1400

const eventTexts: Readonly<Record<FiringEventCode, string>> = {
  steam: 'steam leaves',
  'burn-out': 'what burns in the clay burns out',
  dehydroxylation: 'the water bound in the clay leaves',
  'quartz-inversion': 'quartz changes size',
  'carbonate-decomposition': 'carbonates fall apart',
  sintering: 'grains begin to hold together',
  vitrification: 'glass forms',
  'cristobalite-inversion': 'cristobalite changes size',
  'safe-to-open': 'it may be opened',
}

/** Temperature over time, with what happens to the ware; the list below tells the same. */
export function CurveDrawing({ curve, context }: { readonly curve: readonly CurvePoint[]; readonly context: Context }) {
  const endMin = curve.at(-1)?.atMin ?? 1
  const hottestC = Math.max(...curve.map(({ tempC }) => tempC))
  const events = eventsOn(curve)
  const xOf = (minute: number) => (minute / endMin) * width
  const yOf = (tempC: number) => height - (tempC / topC) * height
  const line = curve.map(({ atMin, tempC }) => `${xOf(atMin).toFixed(1)} ${yOf(tempC).toFixed(1)}`).join('L')
  return (
    <figure className="drawing">
      <svg
        viewBox={`-2 -2 ${width + 4} ${height + 4}`}
        role="img"
        aria-label={`Firing curve, up to ${temperatureText(hottestC, context.units)} in ${durationText(endMin)} until it is cool`}
      >
        {events.map(({ code, direction, startMin, endMin: until }, i) => (
          <g key={`${code} ${direction}`}>
            <rect
              className="curve-event"
              x={xOf(startMin)}
              y={0}
              width={Math.max(1, xOf(until) - xOf(startMin))}
              height={height}
            />
            <text x={xOf(startMin) + 2} y={14 + (i % 4) * 14}>
              {i + 1}
            </text>
          </g>
        ))}
        <path className="curve-line" d={`M${line}`} />
      </svg>
      <figcaption>
        <ol className="small">
          {events.map(({ code, direction, startMin, endMin: until }) => (
            <li key={`${code} ${direction}`}>
              {capital(eventTexts[code])}: {durationText(startMin)} to {durationText(until)} after the start
            </li>
          ))}
        </ol>
      </figcaption>
    </figure>
  )
}
