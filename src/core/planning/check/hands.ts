/** Hands: whose, when, and one thing at a time. */
import type { HandWork } from '#core/studio/studio.ts'
import type { KilnTask, RunTask } from '../plan.ts'
import type { Check, Found, Ground } from './ground.ts'
import { hoursOf, isWithin, stepOf } from './ground.ts'

const watched: ReadonlySet<KilnTask['kind']> = new Set(['start', 'switch-up', 'shut-off', 'open'] as const)

export const withinMakingHours: Check = {
  name: 'hands work within making hours',
  breachesOf: (ground) =>
    outsideHours(ground, 'makingHours', [
      ...ground.plan.tasks.filter(({ kind }) => kind === 'step'),
      ...ground.plan.kilnTasks.filter(({ kind }) => !watched.has(kind)),
    ]),
}

export const lookInsWhileThere: Check = {
  name: 'look-ins fall when somebody looks in',
  breachesOf: (ground) =>
    outsideHours(
      ground,
      'lookInHours',
      ground.plan.tasks.filter(({ kind }) => kind === 'look-in'),
    ),
}

export const kilnWatchedWhileThere: Check = {
  name: 'kilns are minded by somebody at home and awake',
  breachesOf: (ground) =>
    outsideHours(
      ground,
      'kilnWatchHours',
      ground.plan.kilnTasks.filter(({ kind }) => watched.has(kind)),
    ),
}

type Hands = Pick<RunTask, 'id' | 'makerId' | 'startMin' | 'endMin'>

function outsideHours(ground: Ground, sort: Parameters<typeof hoursOf>[2], tasks: readonly Hands[]): Found[] {
  const hours = new Map(ground.studio.makers.map((maker) => [maker.id, hoursOf(ground, maker, sort)]))
  return tasks
    .filter(({ makerId, startMin, endMin }) => !isWithin(hours.get(makerId)!, startMin, endMin))
    .map(({ id, makerId, startMin, endMin }) => ({ task: id, maker: makerId, startMin, endMin }))
}

export const oneThingAtATime: Check = {
  name: 'one maker does one thing at a time',
  breachesOf: ({ plan, studio }) =>
    studio.makers.flatMap(({ id }) => {
      const own: readonly Hands[] = [...plan.tasks, ...plan.kilnTasks]
        .filter(({ makerId }) => makerId === id)
        .toSorted((a, b) => a.startMin - b.startMin || a.endMin - b.endMin)
      let busy: Hands | undefined
      return own.flatMap((task) => {
        const clash =
          busy && task.startMin < busy.endMin
            ? [{ maker: id, task: busy.id, other: task.id, minute: task.startMin }]
            : []
        if (!busy || task.endMin > busy.endMin) busy = task
        return clash
      })
    }),
}

export const onlyByThoseWhoMay: Check = {
  name: 'work is done by those who may',
  breachesOf: (ground) => {
    const lacks = (makerId: string, work: HandWork) => !ground.makers.get(makerId)!.skills.includes(work)
    const steps = ground.plan.tasks.flatMap((task) => {
      const step = task.kind === 'step' ? stepOf(ground, task) : undefined
      return step && lacks(task.makerId, step.needs) ? [{ task: task.id, maker: task.makerId, work: step.needs }] : []
    })
    const kilns = ground.plan.kilnTasks
      .filter(({ makerId }) => lacks(makerId, 'kiln'))
      .map(({ id, makerId }) => ({ task: id, maker: makerId, work: 'kiln' }))
    return [...steps, ...kilns]
  },
}

export const nothingInThePast: Check = {
  name: 'nothing is planned in the past or beyond the horizon',
  breachesOf: ({ plan, nowMin, planningCase: { horizonMin } }) => {
    const off = ({ startMin, endMin }: Hands) => startMin < nowMin || endMin > horizonMin || endMin <= startMin
    const tasks = [...plan.tasks, ...plan.kilnTasks].filter(off)
    const firings = plan.firings.filter(({ underWay, loadMin }) => !underWay && loadMin < nowMin)
    return [
      ...tasks.map(({ id, startMin, endMin }) => ({ task: id, startMin, endMin })),
      ...firings.map(({ id, loadMin, emptyMin }) => ({ task: id, startMin: loadMin, endMin: emptyMin })),
    ]
  },
}

/**
 * A pinned step stands where the potter pinned it, or does not stand at all (then its run is left out by name). Pins of the
 * past, of steps that are done, and of runs nobody plans any more have nothing left to say.
 */
export const pinsKept: Check = {
  name: 'pins are kept',
  breachesOf: (ground) => [
    ...ground.studio.pins.flatMap((pin): Found[] => {
      const run = ground.runs.get(pin.runId)
      const doneStepIds = ground.logRuns.get(pin.runId)?.doneStepIds ?? []
      if (pin.startMin < ground.nowMin || !run || doneStepIds.includes(pin.stepId)) return []
      const tasks = ground.tasksOf(pin.runId).filter(({ stepId }) => stepId === pin.stepId)
      const kept = tasks.some(
        ({ startMin, makerId, pinned }) => pinned && startMin === pin.startMin && (pin.makerId ?? makerId) === makerId,
      )
      const named = ground.plan.leftOut.some(
        ({ runId, designId }) => runId === run.id || (runId === null && designId === run.designId),
      )
      return kept || (tasks.length === 0 && named)
        ? []
        : [{ pin: pin.id, run: pin.runId, step: pin.stepId, startMin: pin.startMin }]
    }),
    ...ground.plan.tasks
      .filter(
        ({ pinned, runId, stepId }) =>
          pinned && !ground.studio.pins.some((pin) => pin.runId === runId && pin.stepId === stepId),
      )
      .map(({ id, runId, stepId, startMin }) => ({ pin: id, run: runId, step: stepId, startMin })),
  ],
}
