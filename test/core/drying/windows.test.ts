import { describe, expect, test } from 'vitest'
import { defaultClay } from '#core/drying/clay.ts'
import { demandBook } from '#core/drying/demand.ts'
import { jointDraws, priorBeliefs } from '#core/drying/draws.ts'
import { windowTables } from '#core/drying/fastPath.ts'
import { fullWindowTables } from '#core/drying/fullWindows.ts'
import { mends } from '#core/drying/mend.ts'
import { longestSpan, spanAt } from '#core/drying/span.ts'
import type { CoverRegime, StepBand, WindowTable } from '#core/drying/types.ts'
import { seededRng } from '#core/rng.ts'
import { aPart, aRegime, roomAir } from '../../support/dryingBuilders.ts'
import { run as soak } from '../../soak/drying.ts'

const DAY_MIN = 1440
const draws = jointDraws(priorBeliefs(defaultClay), 32, 7)
const airOfSpot = roomAir()
const soft: StepBand = { from: 'soft', to: 'leather hard' }
const join: StepBand = { from: 'leather hard', to: 'firm' }

function both(
  parts: Parameters<typeof windowTables>[0]['parts'],
  regime: CoverRegime,
  bands: readonly StepBand[],
  cutMin = [540],
) {
  const horizonMin = 14 * DAY_MIN
  const request = { parts, regime, bands, cutMin, horizonMin }
  const book = demandBook(draws, airOfSpot, cutMin[0]!, cutMin.at(-1)! + horizonMin)
  return { fast: windowTables({ ...request, book }), full: fullWindowTables({ ...request, draws, airOfSpot }) }
}

const sharesOff = (fast: WindowTable, full: WindowTable): number[] =>
  (['openMin', 'closeMin'] as const)
    .flatMap((end) =>
      fast[end].flatMap((row, cut) =>
        row.map((minute, d) => {
          const age = full[end][cut]![d]! - full.cutMin[cut]!
          return Math.max(0, Math.abs(minute - full[end][cut]![d]!) - 40) / Math.max(60, age)
        }),
      ),
    )
    .filter((share) => !Number.isNaN(share))

describe('the fast path beside the full model', () => {
  test.each([
    { name: 'open', parts: [aPart()], regime: aRegime([0, 'open']) },
    { name: 'thick on a rack', parts: [aPart({ thicknessMm: 12, board: 'rack' })], regime: aRegime([0, 'open']) },
    { name: 'loose', parts: [aPart({ thicknessMm: 8 })], regime: aRegime([0, 'loose']) },
    { name: 'plasterboard', parts: [aPart({ board: 'absorbent' })], regime: aRegime([0, 'open']) },
  ])('$name: every end of every draw within 6 % of its age and 40 min', ({ parts, regime }) => {
    const { fast, full } = both(parts, regime, [soft, join])
    for (const step of [0, 1]) expect(Math.max(...sharesOff(fast[step]!, full[step]!))).toBeLessThan(0.06)
  })

  test('through four covers nine in ten ends within 6 %, none off by a third', () => {
    // Under the tuck moisture hardly falls: a threshold met just before it by one way may be met after it by the other.
    const regime = aRegime([0, 'open'], [300, 'tucked'], [1000, 'open'], [1400, 'loose'])
    const { fast, full } = both([aPart()], regime, [soft, join])
    const shares = [0, 1].flatMap((step) => sharesOff(fast[step]!, full[step]!)).toSorted((a, b) => a - b)
    expect(shares[Math.floor(shares.length * 0.9)]!).toBeLessThan(0.06)
    expect(shares.at(-1)!).toBeLessThan(0.34)
  })

  test('rims: nine in ten ends within 6 %, none off by a third', () => {
    const { fast, full } = both([aPart({ rim: { widthMm: 15 } })], aRegime([0, 'open'], [420, 'loose']), [soft, join])
    const shares = [0, 1].flatMap((step) => sharesOff(fast[step]!, full[step]!)).toSorted((a, b) => a - b)
    expect(shares[Math.floor(shares.length * 0.9)]!).toBeLessThan(0.06)
    expect(shares.at(-1)!).toBeLessThan(0.34)
  })

  test('on average neither early nor late', () => {
    const { fast, full } = both([aPart()], aRegime([0, 'open']), [join], [0, 400, 800, 1200])
    const errors = fast[0]!.openMin.flatMap((row, cut) =>
      row.map(
        (minute, d) => (minute - full[0]!.openMin[cut]![d]!) / (full[0]!.openMin[cut]![d]! - full[0]!.cutMin[cut]!),
      ),
    )
    expect(Math.abs(errors.reduce((sum, error) => sum + error, 0) / errors.length)).toBeLessThan(0.01)
  })

  test('random runs (all of them in npm run soak)', () => {
    expect(soak(200, 1)).toMatchObject({ failures: 0 })
  })
})

describe('windows', () => {
  test('open with the last part, close with the first', () => {
    const thin = aPart({ thicknessMm: 5 })
    const thick = aPart({ thicknessMm: 9 })
    const {
      full: [together],
    } = both([thin, thick], aRegime([0, 'loose']), [join])
    const {
      full: [ofThin],
    } = both([thin], aRegime([0, 'loose']), [join])
    const {
      full: [ofThick],
    } = both([thick], aRegime([0, 'loose']), [join])
    expect(together!.openMin).toEqual(ofThick!.openMin)
    expect(together!.closeMin).toEqual(ofThin!.closeMin)
    expect(together!.opens[0]).toEqual({ part: 1, by: 'too soft' })
    expect(together!.closes[0]).toEqual({ part: 0, by: 'too dry' })
  })

  test('close when parts differ too much', () => {
    const parts = [aPart({ thicknessMm: 5 }), aPart({ thicknessMm: 8 })]
    const wide: StepBand = { from: 'soft', to: 'chalky' }
    const {
      full: [free],
    } = both(parts, aRegime([0, 'open']), [wide])
    const {
      full: [alike],
      fast: [alikeFast],
    } = both(parts, aRegime([0, 'open']), [{ ...wide, maxDifferenceDb: 0.04 }])
    expect(alike!.closes[0]!.by).toBe('parts differ')
    expect(alikeFast!.closes[0]!.by).toBe('parts differ')
    alike!.closeMin[0]!.forEach((close, d) => expect(close).toBeLessThanOrEqual(free!.closeMin[0]![d]!))
  })

  test('a later step is read from the same drying as an earlier one', () => {
    const {
      full: [first, second],
    } = both([aPart()], aRegime([0, 'open'], [400, 'loose']), [soft, join])
    // The bands touch: where the one closes the other opens, in every draw.
    expect(second!.openMin).toEqual(first!.closeMin)
  })

  test('the start moisture of a run under way is where it goes on from', () => {
    const cutMin = [0]
    const request = { parts: [aPart()], bands: [join], cutMin, horizonMin: 5 * DAY_MIN, regime: aRegime([0, 'open']) }
    const start = {
      minute: 0,
      middle: { cellsDb: Array.from({ length: 12 }, () => 0.19), tempC: 18, boardKgM2: 0 },
    }
    const starts = [draws.map(() => start)]
    const book = demandBook(draws, airOfSpot, 0, 5 * DAY_MIN)
    const [fast] = windowTables({ ...request, book, starts })
    const [full] = fullWindowTables({ ...request, draws, airOfSpot, starts })
    expect(Math.max(...sharesOff(fast!, full!))).toBeLessThan(0.06)
    expect(Math.max(...full!.openMin[0]!.filter(Number.isFinite))).toBeLessThan(DAY_MIN)
  })
})

describe('recourse at look-ins', () => {
  const plain = aRegime([0, 'loose'])
  const tended: CoverRegime = {
    ...plain,
    id: 'tended',
    recourse: {
      // Morning, noon, late: whenever somebody passes.
      lookInsFrom: (cutMin) => Array.from({ length: 42 }, (_, i) => cutMin + 360 + i * 480),
      forBand: 0,
      park: 'tucked',
      hurry: { afterMin: 2 * DAY_MIN, cover: 'cloth' },
    },
  }

  test('keeps the window open in futures that run ahead, and closes none earlier', () => {
    const {
      full: [without],
    } = both([aPart()], plain, [join])
    const {
      full: [parked],
    } = both([aPart()], { ...tended, recourse: { ...tended.recourse!, park: 'tucked' } }, [join])
    const span = (table: WindowTable) => spanAt(table, 540, 0.8)
    expect(span(without!).empty).toBe(true)
    expect(span(parked!).empty).toBe(false)
  })

  test('is counted alike by both ways of reckoning', () => {
    const {
      fast: [fast],
      full: [full],
    } = both([aPart()], tended, [join])
    const shares = sharesOff(fast!, full!).toSorted((a, b) => a - b)
    // A future that reads ready just before a look-in by one way and just after by the other waits one more look-in.
    expect(shares[Math.floor(shares.length * 0.85)]!).toBeLessThan(0.06)
  })

  test('names the covers that mend an empty window', () => {
    const horizonMin = 14 * DAY_MIN
    const book = demandBook(draws, airOfSpot, 540, 540 + horizonMin)
    const request = { book, parts: [aPart()], bands: [join], regime: plain, cutMin: [540], horizonMin }
    const [table] = windowTables(request)
    expect(spanAt(table!, 540, 0.7)).toMatchObject({ empty: true, part: 0, why: { code: 'odds-too-thin' } })
    expect(mends(request, [plain, tended], 0, 540, 0.7).map(({ regimeId }) => regimeId)).toEqual(['tended'])
  })
})

describe('spans at joint odds', () => {
  const opens = [10, 20, 30, 40, 50, 60, 70, 80, 90, 100]
  const closes = [200, 190, 180, 170, 160, 150, 140, 130, 120, 110]

  test.each([
    [0, 100, 110],
    // One of ten may miss: the last to open and the first to close are the same draw.
    [1, 90, 120],
    [5, 50, 160],
  ])('%s of ten missed, from %s to %s', (mayMiss, startMin, endMin) => {
    expect(longestSpan(opens, closes, mayMiss)).toEqual({ startMin, endMin })
  })

  test('are not two percentiles taken apart: the late openers are not the early closers here', () => {
    // Draws that open late also close late. At 80 % two of ten may miss in all, not two at each end.
    const late = opens.map((open) => open + 95)
    // Best of dropping k late openers and 2 - k early closers, by hand: 100-105+..., always 10 minutes or fewer.
    const span = longestSpan(opens, late, 2)!
    const held = opens.filter((open, d) => open <= span.startMin && late[d]! >= span.endMin).length
    expect(held).toBeGreaterThanOrEqual(8)
    // Percentiles taken apart would promise 80 to 125 and hold in six draws.
    expect(opens.filter((open, d) => open <= 80 && late[d]! >= 125).length).toBe(6)
    expect(span.endMin - span.startMin).toBeLessThan(45)
  })

  test('are as long as any span that holds in enough draws', () => {
    // Against trying all pairs of ends.
    for (let n = 0; n < 200; n++) {
      const random = jointDraws(priorBeliefs(defaultClay), 11, n)
      const from = random.map(({ startMoistureDb }) => Math.round(startMoistureDb * 2000))
      const to = random.map(({ thicknessFactor }, d) => from[d]! + Math.round((thicknessFactor - 0.9) * 400))
      for (const mayMiss of [5, 2, 1, 0]) {
        const found = longestSpan(from, to, mayMiss)
        let best = 0
        for (const a of from)
          for (const b of to) {
            if (b > a && from.filter((open, d) => open <= a && to[d]! >= b).length >= 11 - mayMiss)
              best = Math.max(best, b - a)
          }
        expect(found ? found.endMin - found.startMin : 0).toBe(best)
      }
    }
  })

  test('open is rounded up and close down', () => {
    expect(longestSpan([10.2], [19.8], 0)).toEqual({ startMin: 11, endMin: 19 })
  })

  /** Futures one minute apart: the longest span lets so many of them open late or close early. */
  const missed = (count: number, odds: number): number => {
    const opens = Array.from({ length: count }, (_, i) => i)
    const span = spanAt(
      oneCut(
        opens,
        Array.from({ length: count }, () => 5000),
      ),
      0,
      odds,
    )
    return span.empty ? -1 : count - 1 - span.startMin
  }
  const oneCut = (opens: readonly number[], closes: readonly number[]): WindowTable => ({
    cutMin: [0],
    openMin: [opens],
    closeMin: [closes],
    opens: [{ part: 0, by: 'too soft' }],
    closes: [{ part: 0, by: 'too dry' }],
  })

  test.each([
    // (n + 1) (1 - odds) - 2: an interval of 19 draws from least to most holds the twentieth at 18 in 20.
    [19, 0.9, 0],
    [18, 0.9, -1],
    [32, 0.9, 1],
    [32, 0.95, -1],
    [99, 0.9, 8],
    [99, 0.5, 48],
  ])('of %s draws at odds %s so many may miss: %s', (count, odds, most) => {
    expect(missed(count, odds)).toBe(most)
  })

  test('hold as often as they say in futures that are not among the draws', () => {
    // Opens and closes spread and tied as those of ware are; no span is empty, so that no case is picked by its luck.
    const rng = seededRng(4)
    const future = (): readonly [open: number, close: number] => {
      const open = 1000 * Math.exp(0.3 * rng.normal())
      return [open, open + 9000 * Math.exp(0.3 * rng.normal())]
    }
    for (const odds of [0.5, 0.8, 0.9]) {
      let held = 0
      for (let n = 0; n < 400; n++) {
        const some = Array.from({ length: 60 }, future)
        const table = oneCut(
          some.map(([open]) => open),
          some.map(([, close]) => close),
        )
        const span = spanAt(table, 0, odds)
        if (span.empty) throw new Error('no span')
        const others = Array.from({ length: 50 }, future)
        held += others.filter(([open, close]) => open <= span.startMin && close >= span.endMin).length / 50
      }
      expect(Math.abs(held / 400 - odds)).toBeLessThan(0.025)
    }
  })

  test('say why there is none', () => {
    const table = (openMin: number[], closeMin: number[], times = 20): WindowTable => ({
      cutMin: [0],
      openMin: [Array.from({ length: times }, () => openMin).flat()],
      closeMin: [Array.from({ length: times }, () => closeMin).flat()],
      opens: [{ part: 2, by: 'too soft' }],
      closes: [{ part: 1, by: 'rim too dry' }],
    })
    expect(spanAt(table([50, 60], [40, 45]), 0, 0.9)).toMatchObject({
      empty: true,
      part: 1,
      why: { code: 'closes-before-it-opens' },
    })
    expect(spanAt(table([Infinity, Infinity], [90, 90]), 0, 0.9)).toMatchObject({
      part: 2,
      why: { code: 'never-firm-enough' },
    })
    expect(spanAt(table([10, 60], [50, 90]), 0, 0.9)).toMatchObject({ part: 1, why: { code: 'odds-too-thin' } })
    expect(spanAt(table([10], [20]), 0, 0.9)).toMatchObject({ empty: false, startMin: 10, endMin: 20 })
    expect(spanAt(table([10], [20], 18), 0, 0.9)).toMatchObject({
      why: { code: 'too-few-draws', params: { drawCount: 18 } },
    })
    expect(spanAt(table([10], [20]), -5, 0.9)).toMatchObject({ why: { code: 'not-in-table' } })
  })
})
