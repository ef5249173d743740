import { type PointerEvent, useLayoutEffect, useMemo, useRef, useState } from 'react'
import type { RunTask } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import { LANE_PX, lanesInSight, makerAfter, minutesOf, scaleOf, xOf } from './board.ts'
import { LanesDrawing } from './LanesDrawing.tsx'
import type { Lane, Span } from './lane.ts'
import { type Bounds, draggedTo, type Place } from './moving.ts'

const namesPx = 140
const narrowNamesPx = 104
const narrowBoardPx = 500

export type Moving = {
  readonly task: RunTask
  readonly place: Place
  readonly ableIds: readonly string[]
  readonly bounds: Bounds
}

type Props = {
  readonly lanes: readonly Lane[]
  readonly span: Span
  readonly days: readonly { readonly startMin: Minute; readonly name: string }[]
  readonly nowMin: Minute
  readonly moving: Moving | null
  /** A step is taken up. @returns how it may be moved; null if it may not */
  readonly onTake: (taskId: string) => Moving | null
  readonly onMove: (place: Place) => void
  readonly onDrop: (task: RunTask, place: Place) => void
}

/** Names to the left, days on top, and between them the lanes that are in sight. */
export function Board({ lanes, span, days, nowMin, moving, onTake, onMove, onDrop }: Props) {
  const board = useRef<HTMLDivElement>(null)
  const { sight, look } = useSight(board)
  const names = sight.widthPx < narrowBoardPx ? narrowNamesPx : namesPx
  const { fromMin, toMin } = span
  const roomPx = sight.widthPx - names
  const scale = useMemo(() => scaleOf({ fromMin, toMin }, days.length, roomPx), [fromMin, toMin, days.length, roomPx])
  const inSight = lanesInSight(lanes.length, sight.scrollPx, sight.heightPx)
  const grip = (event: PointerEvent<SVGElement>, handle: SVGElement, taskId: string) => {
    // A finger first chooses a step by a tap and then drags it, so that it can still scroll across the board.
    if (event.button !== 0 || (event.pointerType === 'touch' && moving?.task.id !== taskId)) return
    const taken = onTake(taskId)
    if (!taken) return
    event.preventDefault()
    followPointer(event, handle, taken)
  }
  const followPointer = (
    start: PointerEvent<SVGElement>,
    target: SVGElement,
    { task, place, ableIds, bounds }: Moving,
  ) => {
    let last = place
    const move = ({ clientX, clientY }: { readonly clientX: number; readonly clientY: number }) => {
      const over = makerAfter(lanes, place.makerId, clientY - start.clientY)
      const makerId = over !== undefined && ableIds.includes(over) ? over : last.makerId
      last = draggedTo(place, minutesOf(clientX - start.clientX, scale), makerId, bounds)
      onMove(last)
    }
    const end = () => {
      target.removeEventListener('pointermove', move)
      if (last.startMin !== place.startMin || last.makerId !== place.makerId) onDrop(task, last)
    }
    target.setPointerCapture(start.pointerId)
    target.addEventListener('pointermove', move)
    target.addEventListener('lostpointercapture', end, { once: true })
  }
  const drawn = lanes.slice(inSight.from, inSight.to)
  return (
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- what scrolls must be reached by keyboard
    <div className="week-board" ref={board} tabIndex={0} role="region" aria-label="Lanes of these days" onScroll={look}>
      <div className="week-board-inner" style={{ gridTemplateColumns: `${names}px ${scale.widthPx}px` }}>
        <div className="week-corner" />
        <svg className="lanes week-days" width={scale.widthPx} height={LANE_PX} aria-hidden="true">
          {days.map(({ startMin, name }) => (
            <text key={startMin} x={xOf(startMin, scale) + 6} y={20}>
              {name}
            </text>
          ))}
        </svg>
        <div className="week-names" style={{ height: lanes.length * LANE_PX }} aria-hidden="true">
          {drawn.map(({ key, name, isHeading }, i) => (
            <span
              key={key}
              data-heading={isHeading ?? false}
              style={{ top: (inSight.from + i) * LANE_PX }}
              title={name}
            >
              {name}
            </span>
          ))}
        </div>
        <LanesDrawing
          {...{ lanes, inSight, scale, nowMin, moving, grip }}
          take={onTake}
          days={days.map(({ startMin }) => startMin)}
        />
      </div>
    </div>
  )
}

/** What of the board is in sight, told anew as it is scrolled or its room changes. */
function useSight(board: { readonly current: HTMLDivElement | null }) {
  const [sight, setSight] = useState({ scrollPx: 0, heightPx: 0, widthPx: 0 })
  const look = () => {
    const element = board.current
    if (!element) return
    const { scrollTop: scrollPx, clientHeight: heightPx, clientWidth: widthPx } = element
    setSight((old) =>
      old.scrollPx === scrollPx && old.heightPx === heightPx && old.widthPx === widthPx
        ? old
        : { scrollPx, heightPx, widthPx },
    )
  }
  useLayoutEffect(() => {
    const observer = new ResizeObserver(look)
    observer.observe(board.current!)
    look()
    return () => observer.disconnect()
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the board stays the same element
  }, [])
  return { sight, look }
}
