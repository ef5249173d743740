/** How fast and how well the planner's question is answered: 40 pieces in one round kiln, none asked before. */
import { fits, fullestLoad } from '#core/loading/fits.ts'
import { outlineOf } from '#core/loading/outline.ts'
import { spotProblems } from '#core/loading/spotProblems.ts'
import type { FitAnswer, KilnSpace, LoadItem } from '#core/loading/types.ts'
import { seededRng } from '#core/rng.ts'
import { mixedPieces, someKilns } from '../../../test/core/loading/examples.ts'
import { cpuSeconds } from '../machineFactor.ts'

const PIECES = 40
const WARM_UPS = 40

export type OracleTimes = {
  readonly quickMs: readonly number[]
  readonly boundUs: readonly number[]
  readonly dragMs: readonly number[]
  /** Of what `thorough` places: quick's share by outline times height. */
  readonly quickShares: readonly number[]
  readonly thoroughS: readonly number[]
  /** Outline area against that of many rounds more. */
  readonly thoroughShares: readonly number[]
}

/** @param longRounds rounds of the long search that `thorough` is measured against */
export function oracleTimes(seeds: readonly number[], longRounds: number): OracleTimes {
  const kiln: KilnSpace = { ...someKilns.round }
  const piecesOf = (seed: number): LoadItem[] => mixedPieces(PIECES, seededRng(seed), false)
  for (let i = 0; i < WARM_UPS; i++) {
    fits(kiln, piecesOf(90_000 + i), 'glaze', 'quick')
    for (let k = 0; k < 10; k++) fits(kiln, piecesOf(91_000 + i).map(asMust), 'glaze', 'bound')
  }
  const rows = seeds.map((seed) => {
    const items = piecesOf(seed)
    const quick = timed(() => fits(kiln, items, 'glaze', 'quick'))
    const must = items.map(asMust) // of the same outlines, as the planner keeps them for a design
    const bound = timed(() => fits(kiln, must, 'glaze', 'bound'))
    const drag = dragSeconds(kiln, items, quick.value)
    const thorough = timed(() => fits(kiln, piecesOf(seed), 'glaze', 'thorough'))
    const long = fullestLoad(kiln, items, 'glaze', longRounds)
    return {
      quickMs: quick.seconds * 1e3,
      boundUs: bound.seconds * 1e6,
      dragMs: drag * 1e3,
      quickShare: placed(quick.value, items, bulkOf) / placed(thorough.value, items, bulkOf),
      thoroughS: thorough.seconds,
      thoroughShare: placed(thorough.value, items, areaOf) / placed(long, items, areaOf),
    }
  })
  return {
    quickMs: rows.map((row) => row.quickMs),
    boundUs: rows.map((row) => row.boundUs),
    dragMs: rows.map((row) => row.dragMs),
    quickShares: rows.map((row) => row.quickShare),
    thoroughS: rows.map((row) => row.thoroughS),
    thoroughShares: rows.map((row) => row.thoroughShare),
  }
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

function placed(answer: FitAnswer, items: readonly LoadItem[], amountOf: (item: LoadItem) => number): number {
  if (answer.answer !== 'fits') return 0
  const amounts = new Map(items.map((item) => [item.key, amountOf(item)]))
  return answer.load.levels.flatMap(({ placements }) => placements).reduce((sum, { key }) => sum + amounts.get(key)!, 0)
}

const areaOf = (item: LoadItem): number => outlineOf(item.footprint).areaMm2
const bulkOf = (item: LoadItem): number => areaOf(item) * item.heightMm
