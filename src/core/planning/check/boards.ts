/** Ware boards, and room for them. */
import type { Minute } from '#core/time.ts'
import type { PlannedRun } from '../plan.ts'
import type { Check, Found, Ground, Taken } from './ground.ts'
import { designOf, membersOf, overfull, stageOf } from './ground.ts'

export const boardsForAllThatWaits: Check = {
  name: 'what waits as clay lies on boards where it waits',
  breachesOf: (ground) => ground.plan.runs.flatMap((run) => withoutBoards(ground, run)),
}

/** The first moment at which a run has too few boards where it then waits. */
function withoutBoards(ground: Ground, run: PlannedRun): Found[] {
  const { cutMin } = run
  if (cutMin === null || !['begun', 'clay', 'drying'].includes(stageOf(ground, run))) return []
  const loads = ground.plan.firings.filter(({ kind }) => kind === 'bisque')
  const leftOn = (minute: Minute) =>
    loads
      .filter(({ loadMin }) => loadMin <= minute)
      .reduce((left, firing) => left - membersOf(firing, run.id), run.count)
  const moments = [
    ground.nowMin,
    cutMin,
    ...run.waits.map(({ fromMin }) => fromMin),
    ...run.boards.map(({ toMin }) => toMin),
  ]
  const waiting = moments.filter(
    (minute) => minute >= Math.max(ground.nowMin, cutMin) && minute < ground.planningCase.horizonMin,
  )
  for (const minute of waiting.toSorted((a, b) => a - b)) {
    const spot = run.waits.findLast(({ fromMin }) => fromMin <= minute)?.spotId ?? ''
    const needed = Math.ceil(leftOn(minute) / designOf(ground, run).piecesPerBoard)
    const there = run.boards
      .filter(({ spotId, fromMin, toMin }) => spotId === spot && fromMin <= minute && minute < toMin)
      .reduce((sum, { boardCount }) => sum + boardCount, 0)
    if (there < needed) return [{ run: run.id, spot, minute, needed, there }]
  }
  return []
}

export const roomOnSpots: Check = {
  name: 'there is room on every spot',
  breachesOf: (ground) =>
    ground.studio.spots.flatMap(({ id, boardCount }): Found[] => {
      const full = overfull(
        boardsTaken(ground).filter(({ spotId }) => spotId === id),
        boardCount,
      )
      return full ? [{ spot: id, minute: full.minute, count: full.count, there: boardCount }] : []
    }),
}

export const boardsInAll: Check = {
  name: 'there are ware boards enough',
  breachesOf: (ground) => {
    const full = overfull(boardsTaken(ground), ground.studio.wareBoardCount)
    return full ? [{ minute: full.minute, count: full.count, there: ground.studio.wareBoardCount }] : []
  },
}

/** Boards that a run under way lies on now are not the plan's doing, as long as it stays where it is. */
function boardsTaken({ plan, logRuns }: Ground): (Taken & { readonly spotId: string })[] {
  return plan.runs.flatMap((run) => {
    const spotNow = logRuns.get(run.id)?.waits.at(-1)?.spotId
    return run.boards.map(({ spotId, boardCount, fromMin, toMin }) => ({
      spotId,
      fromMin,
      toMin,
      count: boardCount,
      ours: !run.underWay || spotId !== spotNow,
    }))
  })
}
