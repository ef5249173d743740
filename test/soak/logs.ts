/** Random logs: the order of arrival does not matter, no piece is made or lost, a correction is as if it had never been. */
import type { Entry } from '#core/logbook/entry.ts'
import { foldLog } from '#core/logbook/fold.ts'
import type { LogState } from '#core/logbook/state.ts'
import type { Rng } from '#core/rng.ts'
import { seededRng } from '#core/rng.ts'
import type { StockItem } from '#core/studio/studio.ts'
import { anEntry } from '../support/entryBuilders.ts'
import { anOrderlyLog, aRandomLog, logDesigns, shuffled } from '../support/randomLog.ts'

const designs = new Map(logDesigns.map((design) => [design.id, design]))
const stock: readonly StockItem[] = [
  { id: 'a', designId: 'tray', stage: 'bisque', glazeId: null, count: 7 },
  { id: 'b', designId: 'tray', stage: 'finished', glazeId: 'white', count: 3 },
]

export function run(cases: number, seed: number): { failures: number; report: string } {
  const failed: string[] = []
  let pieces = 0
  let questions = 0
  for (let number = 0; number < cases; number++) {
    const rng = seededRng(seed * 1_000_003 + number)
    const slips = rng.int(3) * 0.08
    const log = rng.int(3) === 0 ? anOrderlyLog(rng, 1 + rng.int(8), slips) : aRandomLog(rng, 5 + rng.int(120), slips)
    const state = foldLog(log, designs, stock)
    questions += state.questions.length
    pieces += state.cut.reduce((sum, { count }) => sum + count, 0)
    for (const what of faultsOf(log, state, rng)) failed.push(`case ${number}: ${what}`)
  }
  const report = `${cases} logs, ${pieces} pieces cut, ${questions} questions\n${failed.slice(0, 20).join('\n')}`
  return { failures: failed.length, report }
}

function faultsOf(log: readonly Entry[], state: LogState, rng: Rng): string[] {
  return [
    ...orderMatters(log, state, rng),
    ...piecesMadeOrLost(state),
    ...looseEnds(log, state),
    ...correctionLeavesATrace(log, rng),
  ]
}

function orderMatters(log: readonly Entry[], state: LogState, rng: Rng): string[] {
  const mixed = foldLog(shuffled(log, rng), designs, stock)
  return same(mixed, state) ? [] : ['another order of arrival gives another state']
}

function piecesMadeOrLost({ cut, runs, shelf, losses, delivered }: LogState): string[] {
  const sum = (items: readonly { readonly count: number }[]) => items.reduce((total, { count }) => total + count, 0)
  const alive = runs.filter(({ stage }) => stage !== 'begun')
  const faults: string[] = []
  for (const { id } of logDesigns) {
    const of = <T extends { readonly designId: string }>(items: readonly T[]) =>
      items.filter((item) => item.designId === id)
    const into = sum(of(cut)) + sum(of(stock))
    const now = sum(of(alive)) + sum(of(shelf)) + sum(of(losses)) + sum(of(delivered))
    if (into !== now) faults.push(`${id}: ${into} went in, ${now} are told of`)
  }
  const counts = [...runs, ...shelf, ...losses, ...delivered, ...cut].map(({ count }) => count)
  if (!counts.every((count) => Number.isInteger(count) && count >= 0)) faults.push('a count is no count')
  return faults
}

function looseEnds(log: readonly Entry[], { runs, firings, questions }: LogState): string[] {
  const ids = new Set(runs.map(({ id }) => id))
  const faults: string[] = []
  if (ids.size !== runs.length) faults.push('two runs of one id')
  if (runs.some(({ stage, count }) => (stage === 'gone') !== (count === 0)))
    faults.push('gone is not the same as none left')
  if (runs.some(({ stage, firingId }) => stage.startsWith('in ') !== (firingId !== null)))
    faults.push('in a kiln, but in no firing')
  if (runs.some(({ waits }) => waits.some(({ fromMin }, i) => fromMin <= (waits[i - 1]?.fromMin ?? -Infinity)))) {
    faults.push('waits do not rise')
  }
  if (firings.some(({ members }) => members.some(({ runId }) => runId === null || !ids.has(runId)))) {
    faults.push('a load of runs that are not there')
  }
  const entryIds = new Set(log.map(({ id }) => id))
  if (questions.some(({ entryId }) => !entryIds.has(entryId))) faults.push('a question about no entry')
  return faults
}

function correctionLeavesATrace(log: readonly Entry[], rng: Rng): string[] {
  const corrected = new Set(log.flatMap((entry) => (entry.kind === 'corrected' ? [entry.body.entryId] : [])))
  const free = log.filter(({ id }) => !corrected.has(id))
  if (free.length === 0) return []
  const entry = free[rng.int(free.length)]!
  const correction = anEntry('corrected', rng.int(2_000), { entryId: entry.id }, { id: 'correction' })
  const after = foldLog([...log, correction], designs, stock)
  const without = foldLog(
    log.filter(({ id }) => id !== entry.id),
    designs,
    stock,
  )
  const voided = after.voided.filter((id) => id !== entry.id)
  return same({ ...after, voided }, without) ? [] : [`correcting ${entry.id} (${entry.kind}) leaves a trace`]
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b)
