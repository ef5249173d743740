import type { Rng } from '../../src/core/rng.ts'
import type {
  CostTerm,
  Lag,
  Mode,
  MonotoneArc,
  Placed,
  Plan,
  Point,
  Problem,
  Resource,
  Task,
} from '../../src/core/planning/search/problem.ts'
import { checkSchedule, costsOf } from '../../src/core/planning/search/check.ts'

const reason = { code: 'drawn', params: {} }
const HORIZON_MIN = 8
const FIRST_MIN = 100

/** A problem small enough to try everything: lags, calendars, windows, modes, optional groups, profiles, two levels. */
export function drawSmallProblem(rng: Rng): Problem {
  const horizon = { startMin: FIRST_MIN, endMin: FIRST_MIN + HORIZON_MIN }
  const chance = (odds: number) => rng.next() < odds
  const minute = () => FIRST_MIN + rng.int(HORIZON_MIN)
  const tasks = Array.from({ length: chance(0.2) ? 4 : 3 }, (_, i): Task => ({
    id: `t${i}`,
    modes: Array.from({ length: chance(0.3) ? 2 : 1 }, (_unused, m) => drawMode(rng, `m${m}`)),
    ...(chance(0.3) ? { group: `g${rng.int(2)}` } : {}),
  }))
  const any = (): Task => tasks[rng.int(tasks.length)]!
  const point = (): Point => ({ taskId: any().id, at: chance(0.5) ? 'start' : 'end' })
  const when = () => {
    const task = any()
    return chance(0.25) ? { when: [{ taskId: task.id, modeId: task.modes[rng.int(task.modes.length)]!.id }] } : {}
  }
  const lags = Array.from({ length: 1 + rng.int(4) }, (): Lag => {
    const least = rng.int(5) - 1
    return {
      from: point(),
      to: point(),
      ...(chance(0.7) ? { minimumMin: least } : {}),
      ...(chance(0.4) ? { maximumMin: least + rng.int(4) } : {}),
      ...when(),
      reason,
    }
  })
  if (chance(0.3)) lags.push({ from: 'origin', to: point(), maximumMin: minute(), reason })
  const monotoneArcs = Array.from({ length: rng.int(3) }, (): MonotoneArc => ({
    from: point(),
    to: point(),
    bound: chance(0.5) ? 'at-least' : 'at-most',
    steps: drawSteps(rng),
    ...when(),
    reason,
  }))
  const resources = [0, 1].map((r): Resource => ({
    id: `r${r}`,
    capacity: 1 + rng.int(3),
    ...(chance(0.4)
      ? { profile: [{ startMin: FIRST_MIN + 2, endMin: FIRST_MIN + 3 + rng.int(4), capacity: rng.int(3) }] }
      : {}),
    reason,
  }))
  return { horizon, tasks, lags, monotoneArcs, resources, costs: drawCosts(rng, tasks, point, minute) }
}

function drawMode(rng: Rng, id: string): Mode {
  const from = FIRST_MIN + rng.int(4)
  return {
    id,
    durationMin: rng.int(5),
    demands: [0, 1].flatMap((r) => (rng.next() < 0.6 ? [{ resourceId: `r${r}`, amount: 1 + rng.int(2) }] : [])),
    ...(rng.next() < 0.3
      ? {
          starts: [
            { startMin: from, endMin: from + 1 + rng.int(2) },
            { startMin: from + 4, endMin: from + 6 },
          ],
        }
      : {}),
  }
}

function drawSteps(rng: Rng): MonotoneArc['steps'] {
  let fromMin = FIRST_MIN + rng.int(3)
  let valueMin = FIRST_MIN + rng.int(4)
  return Array.from({ length: 1 + rng.int(3) }, () => {
    const slope = rng.next() < 0.5 ? (1 as const) : (0 as const)
    const step = { fromMin, valueMin, slope }
    const lengthMin = 1 + rng.int(3)
    fromMin += lengthMin
    valueMin += slope * (lengthMin - 1) + rng.int(3)
    return step
  })
}

function drawCosts(rng: Rng, tasks: readonly Task[], point: () => Point, minute: () => number): Problem['costs'] {
  const groups = [...new Set(tasks.flatMap(({ group }) => group ?? []))]
  const leftOut = groups.map((group): CostTerm => ({ kind: 'left-out', group, cost: 1 + rng.int(9) }))
  const others = tasks.flatMap((task): CostTerm[] => {
    const taskId = task.id
    switch (rng.int(6)) {
      case 0:
        return [{ kind: 'tardiness', taskId, dueMin: minute(), weight: 1 + rng.int(3) }]
      case 1:
        return [{ kind: 'late', taskId, dueMin: minute(), cost: 1 + rng.int(5) }]
      case 2:
        return [{ kind: 'moved', taskId, startMin: minute(), weight: 1 + rng.int(2) }]
      case 3:
        return [{ kind: 'mode', taskId, modeId: task.modes[0]!.id, cost: 1 + rng.int(5) }]
      case 4:
        return [{ kind: 'span', from: point(), to: point(), beyondMin: rng.int(4), weight: 1 + rng.int(2) }]
      default:
        return [{ kind: 'makespan', weight: 1 }]
    }
  })
  return [
    { name: 'first', terms: [...leftOut, ...others.slice(0, 1)] },
    { name: 'second', terms: others.slice(1) },
  ]
}

/** The least costs by trying every mode and minute of every task; undefined if nothing is possible. */
export function leastCostsByTrial(problem: Problem): readonly number[] | undefined {
  let least: readonly number[] | undefined
  const placed: Placed[] = []
  const leftOutIds: string[] = []
  const { startMin: firstMin, endMin: lastMin } = problem.horizon
  // What the first tasks break is broken whatever the others do.
  const beginnings = problem.tasks.map((_, count) => ({ ...problem, tasks: problem.tasks.slice(0, count) }))
  const tryFrom = (index: number): void => {
    const task = problem.tasks[index]
    const plan: Plan = { placed, leftOutIds }
    if (checkSchedule(beginnings[index] ?? problem, plan).length > 0) return
    if (!task) {
      const costs = costsOf(problem, plan)
      if (!least || isLess(costs, least)) least = costs
      return
    }
    const kilns = (problem.kilns ?? []).filter(({ members }) => members.some(({ taskId }) => taskId === task.id))
    for (const { taskId: slotId, startMin } of placed.filter((one) =>
      kilns.some(({ slotIds }) => slotIds.includes(one.taskId)),
    )) {
      placed.push({ taskId: task.id, modeId: task.modes[0]!.id, startMin, endMin: startMin, slotId })
      tryFrom(index + 1)
      placed.pop()
    }
    for (const { id: modeId, durationMin } of kilns.length > 0 ? [] : task.modes) {
      for (let startMin = firstMin; startMin + durationMin <= lastMin; startMin++) {
        placed.push({ taskId: task.id, modeId, startMin, endMin: startMin + durationMin })
        tryFrom(index + 1)
        placed.pop()
      }
    }
    if (task.group === undefined) return
    leftOutIds.push(task.id)
    tryFrom(index + 1)
    leftOutIds.pop()
  }
  tryFrom(0)
  return least
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((cost, level) => cost !== b[level])
  return at >= 0 && a[at]! < b[at]!
}

/** Too large to try everything: twelve tasks with minimum and maximum lags on two resources, to be done soon. */
export function drawTightProject(rng: Rng): Problem {
  const start = (i: number): Point => ({ taskId: `t${i}`, at: 'start' })
  const tasks = Array.from({ length: 12 }, (_, i): Task => ({
    id: `t${i}`,
    modes: [
      {
        id: 'only',
        durationMin: 1 + rng.int(6),
        demands: [0, 1].map((r) => ({ resourceId: `r${r}`, amount: rng.int(4) })),
      },
    ],
  }))
  const lags = Array.from({ length: 10 }, (): Lag => {
    const from = rng.int(11)
    const minimumMin = rng.int(6)
    return {
      from: start(from),
      to: start(from + 1 + rng.int(11 - from)),
      minimumMin,
      ...(rng.next() < 0.4 ? { maximumMin: minimumMin + 4 + rng.int(8) } : {}),
      reason,
    }
  })
  return {
    horizon: { startMin: 0, endMin: 80 },
    tasks,
    lags,
    resources: [0, 1].map((r) => ({ id: `r${r}`, capacity: 4, reason })),
    costs: [{ name: 'makespan', terms: [{ kind: 'makespan', weight: 1 }] }],
  }
}

/** One kiln of three slots and two families with set-ups; four members with sizes, ready times and dues. */
export function drawKilnProblem(rng: Rng): Problem {
  const families = ['bisque', 'glaze']
  const slotIds = ['s0', 's1', 's2']
  const memberIds = ['a', 'b', 'c', 'd'].slice(0, 3 + rng.int(2))
  const slots = slotIds.map((id): Task => ({
    id,
    group: id,
    modes: families.map((family, i) => ({ id: family, durationMin: 2 + i, demands: [] })),
  }))
  const members = memberIds.map((id): Task => ({
    id,
    modes: [{ id: 'only', durationMin: 0, demands: [] }],
    ...(rng.next() < 0.5 ? { group: id } : {}),
  }))
  return {
    horizon: { startMin: FIRST_MIN, endMin: FIRST_MIN + 9 },
    tasks: [...slots, ...members],
    lags: memberIds.map((taskId) => ({
      from: 'origin',
      to: { taskId, at: 'start' },
      minimumMin: FIRST_MIN + rng.int(4),
      reason,
    })),
    resources: [],
    kilns: [
      {
        id: 'kiln',
        slotIds,
        room: [5],
        members: memberIds.map((taskId) => ({
          taskId,
          size: [1 + rng.int(4)],
          familyIds: rng.next() < 0.3 ? families : [families[rng.int(2)]!],
        })),
        setups: families.flatMap((fromFamilyId) =>
          families.map((toFamilyId) => ({ fromFamilyId, toFamilyId, minutes: rng.int(2), cost: rng.int(3) })),
        ),
        initialFamilyId: families[rng.int(2)]!,
      },
    ],
    costs: [
      {
        name: 'left out, late and set-ups',
        terms: [
          ...members.flatMap(({ id, group }): CostTerm[] => [
            { kind: 'tardiness', taskId: id, dueMin: FIRST_MIN + rng.int(6), weight: 1 + rng.int(2) },
            ...(group === undefined ? [] : [{ kind: 'left-out', group, cost: 8 } as const]),
          ]),
          { kind: 'setups', kilnId: 'kiln', weight: 1 },
        ],
      },
      {
        name: 'firings',
        terms: slotIds.flatMap((taskId) =>
          families.map((modeId) => ({ kind: 'mode', taskId, modeId, cost: 1 }) as const),
        ),
      },
    ],
  }
}

/** Ten tasks in quarters of an hour with precedences, waits and releases on two resources, to be done soon. */
export function drawPlainProject(rng: Rng): Problem {
  const quarters = (count: number) => 15 * count
  const tasks = Array.from({ length: 10 }, (_, i): Task => ({
    id: `t${i}`,
    modes: [
      {
        id: 'only',
        durationMin: quarters(i === 0 ? 1 : rng.int(7)),
        demands: [0, 1].map((r) => ({ resourceId: `r${r}`, amount: rng.int(4) })),
      },
    ],
  }))
  const waits = Array.from({ length: 8 }, (): Lag => {
    const from = rng.int(9)
    return {
      from: { taskId: `t${from}`, at: 'end' },
      to: { taskId: `t${from + 1 + rng.int(9 - from)}`, at: 'start' },
      minimumMin: quarters(rng.int(3)),
      reason,
    }
  })
  const release: Lag = { from: 'origin', to: { taskId: 't3', at: 'start' }, minimumMin: quarters(rng.int(9)), reason }
  return {
    horizon: { startMin: 0, endMin: quarters(100) },
    tasks,
    lags: [...waits, release],
    resources: [0, 1].map((r) => ({ id: `r${r}`, capacity: 4, reason })),
    costs: [{ name: 'makespan', terms: [{ kind: 'makespan', weight: 1 }] }],
  }
}
