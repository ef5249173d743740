/** A step that is taken up, put elsewhere, asked about, and then kept or taken back. */
import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import type { PinRecord } from '#contract/order.ts'
import type { Plan, RunTask } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import type { Context } from '#words/context.ts'
import { taskText } from '#words/tasks.ts'
import { momentText } from '#words/times.ts'
import { toast } from '#web/app/toasts.ts'
import { answerOf, client } from '../data/client.ts'
import { newId } from '../data/device.ts'
import type { Studio } from '../data/queries.ts'
import { useKeepPin, useRemovePin } from '../data/useKeep.ts'
import type { Moving } from './Board.tsx'
import type { Supposed } from './moveWords.ts'
import { ableFor, boundsOf, type Place } from './moving.ts'

type View = { readonly plan: Plan; readonly studio: Studio; readonly context: Context; readonly toMin: Minute }

type Taken = {
  readonly taskId: string
  readonly place: Place
  /** Taken up by keyboard, it is moved by keyboard. */
  readonly byKey: boolean
}

export function useMoving({ plan, studio, context, toMin }: View) {
  const [taken, setTaken] = useState<Taken | null>(null)
  const keepPin = useKeepPin()
  const removePin = useRemovePin()
  const asking = useMutation({ mutationFn: ask })
  const movable = (taskId: string, place?: Place): Moving | null => {
    const task = plan.tasks.find(({ id, kind }) => id === taskId && kind === 'step')
    if (!task) return null
    const ableIds = ableFor(task, (runId) => plan.runs.find(({ id }) => id === runId)?.designId, studio)
    return { task, place: place ?? task, ableIds, bounds: boundsOf(task, context.nowMin, toMin) }
  }
  const moving = taken && movable(taken.taskId, taken.place)
  const pinOf = (task: RunTask) => studio.pins.find(({ runId, stepId }) => isOf(task, runId, stepId))
  const pinAt = ({ makerId, startMin }: Place, task: RunTask): PinRecord => ({
    id: pinOf(task)?.id ?? newId('pin'),
    runId: task.runId,
    stepId: task.stepId,
    startsAt: new Date(startMin * 60_000).toISOString(),
    makerId,
  })
  const put = (place: Place) => {
    setTaken((known) => known && { ...known, place })
    asking.reset()
  }
  const back = () => {
    setTaken(null)
    asking.reset()
  }
  return {
    moving,
    /** What came of the last question about just this place. */
    supposed: asking.data,
    isAsking: asking.isPending,
    refusal: asking.error?.message,
    put,
    back,
    isByKey: taken?.byKey ?? false,
    take: (taskId: string, byKey = false): Moving | null => {
      const found = moving?.task.id === taskId ? moving : movable(taskId)
      if (found && found !== moving) {
        setTaken({ taskId, place: found.place, byKey })
        asking.reset()
      }
      return found
    },
    ask: (task: RunTask, place: Place) => asking.mutate(pinAt(place, task)),
    keep: () => {
      if (!moving) return
      const pin = pinAt(moving.place, moving.task)
      const said = `${taskText(moving.task, plan, studio)} stays at ${momentText(moving.place.startMin, context)}`
      const old = pinOf(moving.task)
      const undo = () => (old ? keepPin.mutate(old) : removePin.mutate(pin.id))
      keepPin.mutate(pin, {
        onSuccess: () => {
          toast({ said, undo })
          back()
        },
      })
    },
  }
}

const ask = async (pin: PinRecord): Promise<Supposed> =>
  (await answerOf(client['what-if'].$post({ json: { changes: [{ kind: 'pin', pin }] } }))) as unknown as Supposed

const isOf = (task: RunTask, runId: string, stepId: string): boolean => task.runId === runId && task.stepId === stepId
