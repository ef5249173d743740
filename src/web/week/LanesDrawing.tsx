import type { Minute } from '#core/time.ts'
import type { Lane, Week } from './lanes.ts'

const laneHeight = 30
const nameWidth = 150
const dayWidth = 150
const headHeight = 30
const narrowest = 3

type Props = {
  readonly lanes: readonly Lane[]
  readonly week: Week
  readonly days: readonly { readonly startMin: Minute; readonly name: string }[]
  readonly nowMin: Minute
}

/** The same is told by the list beside it. */
export function LanesDrawing({ lanes, week, days, nowMin }: Props) {
  const width = nameWidth + days.length * dayWidth
  const height = headHeight + lanes.length * laneHeight
  const xOf = (minute: Minute) =>
    nameWidth + ((minute - week.fromMin) / (week.toMin - week.fromMin)) * (days.length * dayWidth)
  return (
    <svg className="lanes" role="img" aria-label="The week in lanes" width={width} height={height}>
      {days.map(({ startMin, name }) => (
        <g key={startMin}>
          <line className="lanes-day" x1={xOf(startMin)} x2={xOf(startMin)} y1={0} y2={height} />
          <text x={xOf(startMin) + 6} y={20}>
            {name}
          </text>
        </g>
      ))}
      {lanes.map(({ key, group, name, bars }, i) => (
        <g key={key} transform={`translate(0 ${headHeight + i * laneHeight})`} data-group={group}>
          <line className="lanes-edge" x1={0} x2={width} y1={laneHeight - 1} y2={laneHeight - 1} />
          <text x={4} y={20}>
            {name.length > 20 ? `${name.slice(0, 19)}…` : name}
          </text>
          {bars.map((bar) => {
            const barWidth = Math.max(narrowest, xOf(bar.endMin) - xOf(bar.startMin))
            return (
              <g key={bar.key}>
                <title>{`${name}: ${bar.label}`}</title>
                <rect
                  className="lanes-bar"
                  data-kind={bar.kind}
                  x={xOf(bar.startMin)}
                  y={5}
                  width={barWidth}
                  height={19}
                />
                {barWidth > bar.label.length * 7 + 8 && bar.kind !== 'window' && (
                  <text className="lanes-label" data-kind={bar.kind} x={xOf(bar.startMin) + 4} y={19}>
                    {bar.label}
                  </text>
                )}
              </g>
            )
          })}
        </g>
      ))}
      <line className="lanes-now" x1={xOf(nowMin)} x2={xOf(nowMin)} y1={0} y2={height} />
    </svg>
  )
}
