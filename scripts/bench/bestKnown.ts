import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

/** `published` upper and lower bounds, and the least makespan known from anywhere. */
export type BestKnown = {
  readonly status: string
  readonly lower: number | undefined
  readonly published: number | undefined
  readonly best: number | undefined
}

/** Reads `best_known.csv` of a folder, if it is there, by instance. */
export function bestKnownIn(folder: string): Map<string, BestKnown> {
  const path = [join(folder, 'best_known.csv'), join(folder, '..', 'best_known.csv')].find((candidate) =>
    existsSync(candidate),
  )
  if (path === undefined) return new Map()
  const [header, ...rows] = readFileSync(path, 'utf8')
    .trim()
    .split(/\r?\n/)
    .map((line) => line.split(','))
  return new Map(
    rows.map((row) => {
      const cell = (name: string) => row[header!.indexOf(name)] ?? ''
      const number = (name: string) => (cell(name) === '' ? undefined : Number(cell(name)))
      const uppers = [number('upper_bound'), number('ub_here')].filter((bound) => bound !== undefined)
      const known = {
        status: cell('status'),
        lower: number('lower_bound'),
        published: number('upper_bound'),
        best: uppers.length === 0 ? undefined : Math.min(...uppers),
      }
      return [cell('instance'), known] as const
    }),
  )
}

type Row = {
  readonly instance: string
  readonly status: string
  readonly makespan: number | undefined
  readonly lowerBound: number
  readonly cpuS: number
  readonly known: BestKnown | undefined
}

/** Counts, mean gaps in percent over the instances with both values, and every answer that published ones refute. */
export function gapSummary(rows: readonly Row[]): string {
  const count = (status: string) => rows.filter((row) => row.status === status).length
  const gap = (to: 'published' | 'best') => {
    const gaps = rows.flatMap(({ makespan, known }) => {
      const bound = known?.[to]
      return makespan === undefined || bound === undefined ? [] : [(100 * (makespan - bound)) / bound]
    })
    return `${(gaps.reduce((sum, one) => sum + one, 0) / Math.max(1, gaps.length)).toFixed(3)} % over ${gaps.length}`
  }
  const atBest = rows.filter(
    ({ makespan, known }) => makespan !== undefined && known?.best !== undefined && makespan <= known.best,
  ).length
  return [
    `# ${rows.length} instances: ${count('optimal')} optimal, ${count('infeasible')} infeasible, ${count('feasible')} feasible, ${count('unknown')} unknown`,
    `# gap to published ${gap('published')}, to best known ${gap('best')}; ${atBest} at best known`,
    `# CPU ${rows.reduce((sum, { cpuS }) => sum + cpuS, 0).toFixed(1)} s, longest ${Math.max(0, ...rows.map(({ cpuS }) => cpuS)).toFixed(2)} s`,
    ...rows.flatMap(contradictions),
  ].join('\n')
}

function contradictions({ instance, status, makespan, lowerBound, known }: Row): string[] {
  if (!known) return []
  const refuted =
    (status === 'infeasible' && known.best !== undefined) ||
    (makespan !== undefined && known.status === 'infeasible') ||
    (makespan !== undefined && known.lower !== undefined && makespan < known.lower) ||
    (status === 'optimal' && known.best !== undefined && makespan! > known.best) ||
    (known.best !== undefined && lowerBound > known.best)
  return refuted
    ? [
        `# CONTRADICTION ${instance}: ${status} ${makespan ?? ''} lower bound ${lowerBound}, published ${JSON.stringify(known)}`,
      ]
    : []
}
