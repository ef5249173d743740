/**
 * How fast and how well the planner's question is answered: 40 pieces in one round kiln, a question never asked before.
 * The planner asks of the same shapes again and again, so they were met once, in a question of one piece fewer; what
 * shapes never met cost besides is told apart.
 */
import { fits, fullestLoad } from '#core/loading/fits.ts'
import { kilnPlanOf } from '#core/loading/kilnPlan.ts'
import { outlineOf } from '#core/loading/outline.ts'
import { spotProblems } from '#core/loading/spotProblems.ts'
import type { FitAnswer, KilnSpace, LoadItem } from '#core/loading/types.ts'
import { seededRng } from '#core/rng.ts'
import { mixedPieces, someKilns } from '../../../test/core/loading/examples.ts'
import { cpuSeconds } from '../machineFactor.ts'

const PIECES = 40
/** Quick questions are asked so often, each time as if never before, and the least counts: neighbours come and go. */
const QUICK_TIMES = 5
/** Questions before the clock starts: a planner asks hundreds, so its code is compiled; the pieces timed are all new. */
const WARM_UPS = 300

export type OracleTimes = {
  readonly quickMs: readonly number[]
  /** The same of shapes never met. */
  readonly quickNewMs: readonly number[]
  readonly boundUs: readonly number[]
  readonly dragMs: readonly number[]
  /** Of what `thorough` places: quick's share by outline times height. */
  readonly quickShares: readonly number[]
  readonly thoroughS: readonly number[]
  /** Outline area against that of many rounds more. */
  readonly thoroughShares: readonly number[]
}

/** Mixed pieces, none of which must go. */
export const fortyPieces = (seed: number): LoadItem[] => mixedPieces(PIECES, seededRng(seed), false)

/** @param longRounds rounds of the long search that `thorough` is measured against */
export function oracleTimes(seeds: readonly number[], longRounds: number): OracleTimes {
  const kiln: KilnSpace = { ...someKilns.round }
  for (let i = 0; i < WARM_UPS; i++) {
    fits(kiln, fortyPieces(90_000 + i), 'glaze', 'quick')
    for (let k = 0; k < 10; k++) fits(kiln, fortyPieces(91_000 + i).map(asMust), 'glaze', 'bound')
  }
  // One kind of question after another, so that none is charged with what another leaves to collect and compile.
  const cases = seeds.map(fortyPieces)
  const asked = Array.from({ length: QUICK_TIMES }, () => quickTimes({ ...kiln }, seeds.map(fortyPieces)))
  const leastMs = (of: 'known' | 'new'): number[] =>
    seeds.map((_, i) => 1e3 * Math.min(...asked.map((times) => times[of][i]!)))
  const quick = cases.map((items) => timed(() => fits(kiln, items, 'glaze', 'quick')))
  const bound = cases.map((items) => boundSeconds(kiln, items.map(asMust)))
  const dragged = () => cases.map((items, i) => dragSeconds(kiln, items, quick[i]!.value))
  dragged() // warms up
  const drag = dragged()
  const thorough = cases.map((items) => timed(() => fits(kiln, items, 'glaze', 'thorough')))
  const long = cases.map((items) => fullestLoad(kiln, items, 'glaze', longRounds))
  const share = (first: FitAnswer, second: FitAnswer, items: readonly LoadItem[], of: (item: LoadItem) => number) =>
    placed(first, items, of) / placed(second, items, of)
  return {
    quickMs: leastMs('known'),
    quickNewMs: leastMs('new'),
    boundUs: bound.map((seconds) => seconds * 1e6),
    dragMs: drag.map((seconds) => seconds * 1e3),
    quickShares: cases.map((items, i) => share(quick[i]!.value, thorough[i]!.value, items, bulkOf)),
    thoroughS: thorough.map(({ seconds }) => seconds),
    thoroughShares: cases.map((items, i) => share(thorough[i]!.value, long[i]!, items, areaOf)),
  }
}

/** CPU seconds of each question, of shapes this kiln has not met and has. */
function quickTimes(kiln: KilnSpace, cases: readonly (readonly LoadItem[])[]): { new: number[]; known: number[] } {
  kilnPlanOf(kiln)
  const seconds = (items: readonly LoadItem[]): number => timed(() => fits(kiln, items, 'glaze', 'quick')).seconds
  return {
    new: cases.map((items) => seconds(items.slice(1))),
    known: cases.map((items) => seconds(items)),
  }
}

/** CPU seconds of one bound, mean of many: no answer of it is remembered, and its outlines are known as in the planner. */
function boundSeconds(kiln: KilnSpace, items: readonly LoadItem[]): number {
  const times = 50
  const seconds = cpuSeconds(() => {
    for (let i = 0; i < times; i++) fits(kiln, items, 'glaze', 'bound')
  })
  return seconds / times
}

const asMust = (item: LoadItem): LoadItem => ({ ...item, mustGo: true })

function timed<T>(work: () => T): { value: T; seconds: number } {
  let value: T | undefined
  const seconds = cpuSeconds(() => {
    value = work()
  })
  return { value: value!, seconds }
}

/** CPU seconds of one check of a dragged piece, mean over spots all over the load. */
function dragSeconds(kiln: KilnSpace, items: readonly LoadItem[], answer: FitAnswer): number {
  if (answer.answer !== 'fits') return Infinity
  const { load } = answer
  const keys = load.levels.flatMap(({ placements }) => placements.map(({ key }) => key))
  const rng = seededRng(1)
  const drags = 40
  const seconds = cpuSeconds(() => {
    for (let i = 0; i < drags; i++) {
      const [xMm, yMm] = [400 * (rng.next() - 0.5), 400 * (rng.next() - 0.5)]
      const spot = { key: keys[rng.int(keys.length)]!, level: rng.int(load.levels.length), xMm, yMm, angleIndex: 0 }
      spotProblems(kiln, items, 'glaze', load, spot)
    }
  })
  return seconds / drags
}

export function placed(answer: FitAnswer, items: readonly LoadItem[], amountOf: (item: LoadItem) => number): number {
  if (answer.answer !== 'fits') return 0
  const amounts = new Map(items.map((item) => [item.key, amountOf(item)]))
  return answer.load.levels.flatMap(({ placements }) => placements).reduce((sum, { key }) => sum + amounts.get(key)!, 0)
}

export const areaOf = (item: LoadItem): number => outlineOf(item.footprint).areaMm2
const bulkOf = (item: LoadItem): number => areaOf(item) * item.heightMm
