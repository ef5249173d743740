import { memo, type PointerEvent } from 'react'
import type { RunTask } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import { LANE_PX, type Scale, xOf } from './board.ts'
import type { Bar, Lane } from './lane.ts'
import type { Place } from './moving.ts'

const narrowest = 3
/** What a finger or pointer can hit, however short the step. */
const leastGripPx = 20
const letterPx = 6.6

export type Grip = (event: PointerEvent<SVGElement>, handle: SVGElement, taskId: string) => void

type Props = {
  readonly lanes: readonly Lane[]
  /** Of all lanes, those drawn. */
  readonly inSight: { readonly from: number; readonly to: number }
  readonly scale: Scale
  readonly days: readonly Minute[]
  readonly nowMin: Minute
  /** The step that is being moved, and where it would stand. */
  readonly moving: { readonly task: RunTask; readonly place: Place } | null
  readonly grip: Grip
  readonly take: (taskId: string) => unknown
}

/** The same is told by the lists beside it. */
export function LanesDrawing({ lanes, inSight, scale, days, nowMin, moving, grip, take }: Props) {
  const height = lanes.length * LANE_PX
  const nowX = xOf(nowMin, scale)
  return (
    <svg
      className="lanes"
      role="img"
      aria-label="The days in lanes"
      width={scale.widthPx}
      height={height}
      onPointerDown={(event) => {
        const [handle, taskId] = gripOf(event.target)
        if (handle && taskId) grip(event, handle, taskId)
      }}
      onClick={({ target }) => {
        const [, taskId] = gripOf(target)
        if (taskId) take(taskId)
      }}
    >
      {days.map((startMin) => (
        <line
          key={startMin}
          className="lanes-day"
          x1={xOf(startMin, scale)}
          x2={xOf(startMin, scale)}
          y1={0}
          y2={height}
        />
      ))}
      {moving && <MovingBand task={moving.task} scale={scale} height={height} />}
      {lanes.slice(inSight.from, inSight.to).map((lane, i) => (
        <g key={lane.key} transform={`translate(0 ${(inSight.from + i) * LANE_PX})`}>
          <LaneDrawing lane={lane} scale={scale} movingId={moving?.task.id} />
          {moving && moving.place.makerId === lane.makerId && <Ghost moving={moving} scale={scale} />}
        </g>
      ))}
      {nowX >= 0 && nowX <= scale.widthPx && <line className="lanes-now" x1={nowX} x2={nowX} y1={0} y2={height} />}
    </svg>
  )
}

/** The window of the clay, through all lanes. */
function MovingBand({ task: { window }, scale, height }: { task: RunTask; scale: Scale; height: number }) {
  if (!window) return null
  const from = Math.max(0, xOf(window.openMin, scale))
  const to = Math.min(scale.widthPx, xOf(window.closeMin, scale))
  return to > from ? <rect className="lanes-band" x={from} y={0} width={to - from} height={height} /> : null
}

function Ghost({ moving: { task, place }, scale }: { moving: NonNullable<Props['moving']>; scale: Scale }) {
  const x = xOf(place.startMin, scale)
  const width = Math.max(narrowest, xOf(place.startMin + task.endMin - task.startMin, scale) - x)
  return <rect className="lanes-ghost" x={x} y={2} width={width} height={LANE_PX - 5} />
}

/** The handle that was hit, and the step that is moved by it. */
function gripOf(target: EventTarget): [SVGElement, string | undefined] | [] {
  return target instanceof SVGElement ? [target, target.dataset['task']] : []
}

type LaneProps = { readonly lane: Lane; readonly scale: Scale; readonly movingId: string | undefined }

/** Not drawn anew while the board is scrolled: the drawing hears for all its bars what is done to them. */
const LaneDrawing = memo(function LaneDrawing({ lane, scale, movingId }: LaneProps) {
  return (
    <>
      <line className="lanes-edge" x1={0} x2={scale.widthPx} y1={LANE_PX - 1} y2={LANE_PX - 1} />
      {lane.bars.map((bar) => (
        <BarDrawing
          key={bar.key}
          bar={bar}
          lane={lane}
          scale={scale}
          isMoving={movingId !== undefined && bar.taskId === movingId}
        />
      ))}
    </>
  )
})

type BarProps = {
  readonly bar: Bar
  readonly lane: Lane
  readonly scale: Scale
  readonly isMoving: boolean
}

function BarDrawing({ bar, lane, scale, isMoving }: BarProps) {
  const { kind, label, taskId, shares } = bar
  const x = xOf(bar.startMin, scale)
  const width = Math.max(narrowest, xOf(bar.endMin, scale) - x)
  const whole = LANE_PX - 1
  const y = shares ? (1 - shares.high) * whole : 5
  const height = shares ? (shares.high - shares.low) * whole : LANE_PX - 10
  const gripPx = Math.max(leastGripPx, width)
  const isSaid = kind !== 'window' && kind !== 'hours' && width > label.length * letterPx + 8
  return (
    <g>
      <title>{`${lane.name}: ${label}`}</title>
      <rect className="lanes-bar" data-kind={kind} data-moving={isMoving} x={x} y={y} width={width} height={height} />
      {isSaid && (
        <text className="lanes-label" data-kind={kind} x={x + 4} y={LANE_PX - 11}>
          {label}
        </text>
      )}
      {taskId !== undefined && (
        <rect
          className="lanes-grip"
          data-moving={isMoving}
          data-task={taskId}
          x={x - (gripPx - width) / 2}
          y={0}
          width={gripPx}
          height={LANE_PX}
        />
      )}
    </g>
  )
}
