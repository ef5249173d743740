import type { Lag, Problem, Reason } from '../../src/core/planning/search/problem.ts'

/** A project of activities with lags between starts and renewable resources; minimise the makespan. */
type Project = {
  readonly durations: readonly number[]
  /** By activity, by resource. */
  readonly requests: readonly (readonly number[])[]
  readonly capacities: readonly number[]
  readonly arcs: readonly { readonly from: number; readonly weight: number; readonly to: number }[]
}

/** Reads PSPLIB `.sm` (Kolisch & Sprecher 1997) or ProGen/max `.sch` (Schwindt 1998) by the file's ending. */
export function readScheduling(fileName: string, text: string): Problem {
  return problemOf(fileName.toLowerCase().endsWith('.sm') ? readSm(text) : readSch(text))
}

/** Numbers only, activity by activity; lags in square brackets, a negative one is a maximum lag the other way. */
function readSch(text: string): Project {
  const numbers = text.replace(/[[\]]/g, ' ').trim().split(/\s+/).map(Number)
  let at = 0
  const next = () => numbers[at++]!
  const count = next() + 2
  const resources = next()
  at += 2
  const arcs: Project['arcs'][number][] = []
  for (let i = 0; i < count; i++) {
    const from = next()
    at++
    const successors = Array.from({ length: next() }, next)
    for (const to of successors) arcs.push({ from, weight: next(), to })
  }
  const durations: number[] = []
  const requests: number[][] = []
  for (let i = 0; i < count; i++) {
    at += 2
    durations.push(next())
    requests.push(Array.from({ length: resources }, next))
  }
  return { durations, requests, capacities: Array.from({ length: resources }, next), arcs }
}

/** Sections under headings; precedences only, each a lag of the duration. */
function readSm(text: string): Project {
  const lines = text.split(/\r?\n/)
  const rowsUnder = (heading: string, skip: number): number[][] => {
    const from = lines.findIndex((line) => line.startsWith(heading)) + 1 + skip
    const to = lines.findIndex((line, index) => index >= from && line.startsWith('*'))
    return lines.slice(from, to).map((line) => line.trim().split(/\s+/).map(Number))
  }
  const requestRows = rowsUnder('REQUESTS/DURATIONS', 2)
  const durations = requestRows.map((row) => row[2]!)
  const arcs = rowsUnder('PRECEDENCE RELATIONS', 1).flatMap(([job, , , ...successors]) =>
    successors.map((to) => ({ from: job! - 1, weight: durations[job! - 1]!, to: to - 1 })),
  )
  return {
    durations,
    requests: requestRows.map((row) => row.slice(3)),
    capacities: rowsUnder('RESOURCEAVAILABILITIES', 1)[0]!,
    arcs,
  }
}

function problemOf({ durations, requests, capacities, arcs }: Project): Problem {
  const name = (activity: number) => `a${activity}`
  // One after another with every lag waited out is long enough.
  const longest = durations.map((duration, i) =>
    Math.max(duration, ...arcs.filter(({ from }) => from === i).map(({ weight }) => weight)),
  )
  const horizonMin = longest.reduce((sum, minutes) => sum + minutes, 0)
  const start = (activity: number) => ({ taskId: name(activity), at: 'start' as const })
  const lags = arcs.map(({ from, weight, to }): Lag => {
    if (weight >= 0)
      return { from: start(from), to: start(to), minimumMin: weight, reason: lagReason('minimum', from, to, weight) }
    const id = `maximum ${to} to ${from}`
    return {
      from: start(to),
      to: start(from),
      maximumMin: -weight,
      reason: lagReason('maximum', to, from, -weight),
      assumptionId: id,
    }
  })
  const relaxable = new Map(
    lags.flatMap(({ assumptionId, reason }) => (assumptionId === undefined ? [] : [[assumptionId, reason] as const])),
  )
  return {
    horizon: { startMin: 0, endMin: horizonMin },
    tasks: durations.map((durationMin, i) => ({
      id: name(i),
      modes: [{ id: 'only', durationMin, demands: requests[i]!.map((amount, r) => ({ resourceId: `r${r}`, amount })) }],
    })),
    lags,
    resources: capacities.map((capacity, r) => ({
      id: `r${r}`,
      capacity,
      reason: { code: 'capacity', params: { resource: r, capacity } },
    })),
    assumptions: [...relaxable].map(([id, reason]) => ({
      id,
      reason,
      price: 1,
      stretch: { mostMin: horizonMin, pricePerMin: 1 },
    })),
    costs: [{ name: 'makespan', terms: [{ kind: 'makespan', weight: 1 }] }],
  }
}

const lagReason = (kind: string, from: number, to: number, minutes: number): Reason => ({
  code: `${kind}-lag`,
  params: { from, to, minutes },
})
