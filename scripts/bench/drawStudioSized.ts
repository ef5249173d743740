import type { CostTerm, Lag, MonotoneArc, Problem, Task } from '../../src/core/planning/search/problem.ts'
import { seededRng } from '../../src/core/rng.ts'

const DAY_MIN = 1440
const reason = { code: 'drawn', params: {} }

/**
 * Runs of five steps: cut, join inside a window that the cut's hour decides, dry, and fire on one of two kilns; two
 * makers with hours by day, a rack with room. Late runs cost by weight, runs left out more.
 */
export function drawStudioSized(taskCount: number, seed: number): Problem {
  const rng = seededRng(seed)
  const runs = Math.max(1, Math.round(taskCount / 5))
  // About two runs a day can be made, so that dates press.
  const days = Math.max(14, Math.ceil(runs / 2) + 10)
  const days9to5 = Array.from({ length: days }, (_, day) => ({
    startMin: day * DAY_MIN + 540,
    endMin: day * DAY_MIN + 1020,
  }))
  const closed = [0, ...days9to5.map(({ endMin }) => endMin)].map((startMin, i) => ({
    startMin,
    endMin: days9to5[i]?.startMin ?? days * DAY_MIN,
    capacity: 0,
  }))
  const tasks: Task[] = []
  const lags: Lag[] = []
  const monotoneArcs: MonotoneArc[] = []
  const terms: CostTerm[] = []
  for (let run = 0; run < runs; run++) {
    const group = `run ${run}`
    const step = (name: string, modes: Task['modes']): string => {
      tasks.push({ id: `${name} ${run}`, modes, group })
      return `${name} ${run}`
    }
    const hands = (durationMin: number) =>
      ['anna', 'ben'].map((maker) => ({ id: maker, durationMin, demands: [{ resourceId: maker, amount: 1 }] }))
    const cut = step('cut', hands(30 + 15 * rng.int(5)))
    const join = step('join', hands(45 + 15 * rng.int(8)))
    const dry = step('dry', [
      {
        id: 'rack',
        durationMin: DAY_MIN * (2 + rng.int(3)),
        demands: [{ resourceId: 'rack', amount: 1 + rng.int(3) }],
      },
    ])
    const fire = step(
      'fire',
      ['k1', 'k2'].map((kiln) => ({
        id: kiln,
        durationMin: 900,
        demands: [{ resourceId: kiln, amount: 10 + 5 * rng.int(6) }],
      })),
    )
    const unload = step('unload', hands(20))
    const after = (from: string, to: string, minimumMin: number, maximumMin?: number) =>
      lags.push({
        from: { taskId: from, at: 'end' },
        to: { taskId: to, at: 'start' },
        minimumMin,
        ...(maximumMin === undefined ? {} : { maximumMin }),
        reason,
      })
    const stiffMin = 360 + 60 * rng.int(16)
    const openMin = 420 + 60 * rng.int(12)
    const window = (valueMin: number) => [{ fromMin: 0, valueMin, slope: 1 as const }]
    const joined = { from: { taskId: cut, at: 'end' as const }, to: { taskId: join, at: 'start' as const }, reason }
    monotoneArcs.push(
      { ...joined, bound: 'at-least', steps: window(stiffMin) },
      { ...joined, bound: 'at-most', steps: window(stiffMin + openMin) },
    )
    after(join, dry, 0, 0)
    after(dry, fire, 0)
    after(fire, unload, 600)
    terms.push(
      {
        kind: 'tardiness',
        taskId: unload,
        dueMin: DAY_MIN * (6 + rng.int(Math.max(5, Math.round(runs / 3)))),
        weight: 1 + rng.int(3),
      },
      { kind: 'left-out', group, cost: 60_000 },
    )
  }
  return {
    horizon: { startMin: 0, endMin: days * DAY_MIN },
    tasks,
    lags,
    monotoneArcs,
    resources: [
      ...['anna', 'ben'].map((id) => ({ id, capacity: 1, profile: closed, reason })),
      { id: 'rack', capacity: 16, reason },
      { id: 'k1', capacity: 60, reason },
      { id: 'k2', capacity: 40, reason },
    ],
    costs: [{ name: 'late or left out', terms }],
  }
}
