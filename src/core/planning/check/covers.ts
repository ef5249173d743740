/** How runs wait: under covers that somebody lays on and takes off, resting before they dry, drying slowly at first. */
import type { CoverKind } from '#core/drying/types.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import type { PlannedRun, RunTask } from '../plan.ts'
import type { Check, Found, Ground } from './ground.ts'
import { clayStepsOf, designOf, membersOf, stageOf } from './ground.ts'

type PlannedWait = PlannedRun['waits'][number]

export const coversAreThere: Check = {
  name: 'ware is laid under covers that the studio has',
  breachesOf: ({ plan, studio }) =>
    plan.tasks.flatMap(({ id, after, parkWhen }): Found[] =>
      [after, parkWhen].flatMap((laid) =>
        laid && !studio.covers.includes(laid.cover) ? [{ task: id, cover: laid.cover }] : [],
      ),
    ),
}

/**
 * What a run waits under is what the logbook tells of the past, and then only what a task of its own sets down as it ends;
 * and what tasks set down is told.
 */
export const coversChangeByHand: Check = {
  name: 'covers change only when somebody is there',
  breachesOf: (ground) =>
    ground.plan.runs.flatMap((run): Found[] => {
      const past: readonly PlannedWait[] = ground.logRuns.get(run.id)?.waits ?? []
      const tasks = ground.tasksOf(run.id)
      const toCome = run.waits.slice(past.length)
      const rewritten = past.filter((wait, index) => !isSame(wait, run.waits[index]))
      const byNobody = toCome.filter((wait, index) => {
        const before = toCome[index - 1] ?? past.at(-1)
        return !tasks.some(
          ({ endMin, after, parkWhen }) =>
            endMin === wait.fromMin &&
            (isSame(wait, after && { fromMin: endMin, ...after }) ||
              (parkWhen?.cover === wait.cover && before?.spotId === wait.spotId)),
        )
      })
      const untold = tasks.filter(
        (task, index) =>
          task.after &&
          !mayBeParked(tasks, index) &&
          !run.waits.some((wait) => isSame(wait, { fromMin: task.endMin, ...task.after! })),
      )
      const falling = run.waits.filter(({ fromMin }, index) => fromMin < (run.waits[index - 1]?.fromMin ?? fromMin))
      return [
        ...[...rewritten, ...byNobody, ...falling].map(({ fromMin, cover }) => ({
          run: run.id,
          minute: fromMin,
          cover,
        })),
        ...untold.map(({ endMin, after }) => ({ run: run.id, minute: endMin, cover: after!.cover })),
      ]
    }),
}

/** Whether a look-in since the last step may have parked the run: what is then changed is told only if it was not. */
function mayBeParked(tasks: readonly RunTask[], index: number): boolean {
  const since = tasks.slice(0, index + 1).findLastIndex(({ kind }) => kind === 'step')
  return tasks.slice(Math.max(0, since), index + 1).some(({ parkWhen }) => parkWhen !== null)
}

const isSame = (a: PlannedWait, b: PlannedWait | null | undefined): boolean =>
  b !== null && b !== undefined && a.fromMin === b.fromMin && a.cover === b.cover && a.spotId === b.spotId

const restingCovers: ReadonlySet<CoverKind> = new Set(['tucked', 'sealed', 'damp cupboard'] as const)
const openCovers: ReadonlySet<CoverKind> = new Set(['open', 'cloth'] as const)

/** How a built run is opened: from its last join (or from when it was closed up after it), the first wait no longer close, the first open one, and its loading. */
type Opening = {
  readonly run: PlannedRun
  readonly joinedMin: Minute
  readonly loosenedMin: Minute
  readonly openedMin: Minute
  /** When it goes into the kiln; a run that never does has nothing to rest for. */
  readonly loadedMin: Minute
}

export const seamsEvenOut: Check = {
  name: 'seams even out under a close cover, long enough and not too long',
  breachesOf: (ground) =>
    openingsOf(ground).flatMap(({ run, joinedMin, loosenedMin, loadedMin }): Found[] => {
      const { least, most } = designOf(ground, run).evenOutHours
      // A studio without plastic rests its ware under the best it has.
      const canRest = ground.studio.covers.some((cover) => restingCovers.has(cover))
      const hours = (Math.min(loosenedMin, loadedMin) - joinedMin) / MIN_PER_HOUR
      // What has lain too long already is no plan's doing.
      const isLate = joinedMin + most * MIN_PER_HOUR < ground.nowMin
      const isOff = hours < least || (hours > most && !isLate)
      return canRest && least > 0 && isOff ? [{ run: run.id, hours, least, most }] : []
    }),
}

export const driesSlowlyAtFirst: Check = {
  name: 'ware dries slowly before it stands open',
  breachesOf: (ground) =>
    openingsOf(ground).flatMap(({ run, joinedMin, openedMin, loadedMin }): Found[] => {
      const { evenOutHours, slowDryHours } = designOf(ground, run)
      const hours = (Math.min(openedMin, loadedMin) - joinedMin) / MIN_PER_HOUR
      const least = evenOutHours.least + slowDryHours
      return hours < least ? [{ run: run.id, hours, least }] : []
    }),
}

/** Of every run that the plan brings from clay into a bisque, unless the logbook already has it standing open. */
function openingsOf(ground: Ground): Opening[] {
  return ground.plan.runs.flatMap((run): Opening[] => {
    if (run.cutMin === null || !['begun', 'clay', 'drying'].includes(stageOf(ground, run))) return []
    const joinedMin = lastJoinOf(ground, run)
    const loads = ground.plan.firings.filter((firing) => firing.kind === 'bisque' && membersOf(firing, run.id) > 0)
    if (joinedMin === null || loads.length === 0) return []
    const under = run.waits.findLast(({ fromMin }) => fromMin <= Math.max(joinedMin, ground.nowMin))
    if (joinedMin < ground.nowMin && (!under || !restingCovers.has(under.cover))) return []
    const restMin = Math.max(joinedMin, restingSince(run, Math.max(joinedMin, ground.nowMin)))
    const later = run.waits.filter(({ fromMin }) => fromMin >= restMin)
    const first = (covers: (cover: CoverKind) => boolean) =>
      later.find(({ cover }) => covers(cover))?.fromMin ?? Number.POSITIVE_INFINITY
    return [
      {
        run,
        joinedMin: restMin,
        loosenedMin: first((cover) => !restingCovers.has(cover)),
        openedMin: first((cover) => openCovers.has(cover)),
        loadedMin: Math.min(...loads.map(({ loadMin }) => loadMin)),
      },
    ]
  })
}

/** The end of the last join, planned or past (the logbook keeps only the last step's); null: nothing is joined. */
function lastJoinOf(ground: Ground, run: PlannedRun): Minute | null {
  const join = clayStepsOf(designOf(ground, run)).findLast(({ kind }) => kind === 'join')
  if (!join) return null
  const planned = ground.tasksOf(run.id).filter(({ stepId }) => stepId === join.id)
  if (planned.length > 0) return Math.max(...planned.map(({ endMin }) => endMin))
  const log = ground.logRuns.get(run.id)
  return log?.doneStepIds.includes(join.id) ? log.lastStepMin : null
}

/** Since when a run has lain under close covers without a break, as of `minute`. */
function restingSince({ waits }: PlannedRun, minute: Minute): Minute {
  const upTo = waits.filter(({ fromMin }) => fromMin <= minute)
  const lastOpen = upTo.findLastIndex(({ cover }) => !restingCovers.has(cover))
  return upTo[lastOpen + 1]?.fromMin ?? minute
}
