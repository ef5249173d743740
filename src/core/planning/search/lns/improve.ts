import type { Rng } from '../../../rng.ts'
import { evaluate } from '../evaluate.ts'
import type { Indexed } from '../indexed.ts'
import type { Limits } from '../lcg/solver.ts'
import type { Packing } from '../packing.ts'
import type { Pairs } from '../pairs.ts'
import { isBetter, type Schedule } from '../schedule.ts'
import { justified } from '../timing/justify.ts'
import { createAdaptive } from './adaptive.ts'
import { viewOf, type Neighbourhood } from './neighbourhood.ts'
import { criticalBlock } from './neighbourhoods/criticalBlock.ts'
import { oneResource } from './neighbourhoods/oneResource.ts'
import { randomTasks } from './neighbourhoods/randomTasks.ts'
import { timeWindow } from './neighbourhoods/timeWindow.ts'
import { planPart, type Hold } from './subproblem.ts'

const neighbourhoods: readonly Neighbourhood[] = [timeWindow, criticalBlock, oneResource, randomTasks]

const CONFLICTS_A_PART = 100
const FIRST_SIZE = 15
const LEAST_SIZE = 8
/** Share of the parts that only look for another schedule of the same cost, to leave plateaus: large problems have few. */
const SIDEWAYS_SHARE = { small: 0.6, large: 0.1 }
const CONFLICTS_SIDEWAYS = 40
/** Beyond so many tasks rebuilding a partial order and closing gaps in all of it cost more than they gain. */
const MOST_SMALL = 300

/** Large neighbourhood search: one part after another is planned anew, the rest held. */
export type Improver = {
  /** One part. @returns a schedule that is better or as good, if one was found, and its work (0: nothing to do) */
  readonly step: (schedule: Schedule, limits: Limits) => { next: Schedule | undefined; work: number }
  readonly iterations: () => number
}

/** @see Shaw (1998), large neighbourhood search; Godard, Laborie, Nuijten (2005), over partial order schedules */
export function createImprover(
  indexed: Indexed,
  pairs: Pairs | undefined,
  packing: Packing | undefined,
  lowerBoundOf: (level: number) => number,
  rng: Rng,
): Improver {
  const isSmall = indexed.taskCount <= MOST_SMALL
  const hold: Hold = isSmall ? 'movable' : 'fixed'
  const sidewaysShare = SIDEWAYS_SHARE[isSmall ? 'small' : 'large']
  const adaptive = createAdaptive(
    neighbourhoods.length,
    Math.min(FIRST_SIZE, indexed.taskCount),
    LEAST_SIZE,
    indexed.taskCount,
  )
  let iterations = 0

  const levelToImprove = (schedule: Schedule): number => {
    const open = schedule.costs.flatMap((cost, level) => (cost > lowerBoundOf(level) ? [level] : []))
    if (open.length === 0) return -1
    // The first level counts most, but a search that only asks for it never tidies the others.
    const index = open.findIndex((_, i) => i === open.length - 1 || rng.next() < 0.6)
    return open[index]!
  }

  const step: Improver['step'] = (schedule, limits) => {
    const level = levelToImprove(schedule)
    if (level < 0) return { next: undefined, work: 0 }
    iterations++
    const arm = adaptive.pick(rng)
    const size = Math.max(2, Math.round(adaptive.size(arm) * (0.6 + 0.8 * rng.next())))
    const tasks = neighbourhoods[arm]!.tasks(viewOf(indexed, schedule), size, rng)
    if (tasks.length === 0) return { next: undefined, work: 1 }
    const aim = rng.next() < sidewaysShare ? 'other' : 'less'
    const budget = Math.min(aim === 'less' ? CONFLICTS_A_PART : CONFLICTS_SIDEWAYS, limits.conflicts)
    const part = { tasks, hold, level, aim } as const
    const attempt = planPart(indexed, pairs, packing, schedule, part, { ...limits, conflicts: budget }, rng)
    if (aim === 'less') {
      const isEasy = attempt.isExhausted && attempt.conflicts < budget / 2
      adaptive.learn(arm, attempt.next ? 1 : 0, isEasy, !attempt.isExhausted)
    }
    const next = attempt.next && isSmall ? tidied(indexed, attempt.next) : attempt.next
    return { next, work: attempt.work }
  }

  return { step, iterations: () => iterations }
}

/** Gaps closed, if that costs nothing. */
function tidied(indexed: Indexed, schedule: Schedule): Schedule {
  // Members of a firing move only together with it.
  if (indexed.kilns.length > 0) return schedule
  const closed = { ...schedule, start: justified(indexed, schedule) }
  const costs = evaluate(indexed, closed)
  return isBetter(schedule.costs, costs) ? schedule : { ...closed, costs }
}
