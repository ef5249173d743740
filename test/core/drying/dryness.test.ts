import { describe, expect, test } from 'vitest'
import { clayFaults, partFaults, spanFaults } from '#core/drying/checkInput.ts'
import { knownDrying } from '#contract/clay.ts'
import { completedClay, defaultClay, firmnessOf, plus } from '#core/drying/clay.ts'
import { crackRisks } from '#core/drying/crackRisk.ts'
import { jointDraws, priorBeliefs } from '#core/drying/draws.ts'
import { trajectory } from '#core/drying/fullModel.ts'
import { earliestDryMin, oddsDryBy, readyForBisque } from '#core/drying/readiness.ts'
import { runStates } from '#core/drying/runStates.ts'
import { latestReleaseMin } from '#core/drying/shrunk.ts'
import { cellShare } from '#core/drying/slab.ts'
import type { ClayDrying, PartState } from '#core/drying/types.ts'
import { moistureBandOf } from '#core/drying/windows.ts'
import { seededRng } from '#core/rng.ts'
import { aPart, spans, steadyAir, usualDraw } from '../../support/dryingBuilders.ts'

const DAY_MIN = 1440
const draws = jointDraws(priorBeliefs(defaultClay), 40, 5)
const airOfSpot = steadyAir()
const meanOf = ({ middle }: PartState): number => middle.cellsDb.reduce((sum, db, i) => sum + db * cellShare(i), 0)

describe('ready for bisque', () => {
  const ask = (part = aPart(), rh = 0.5) =>
    readyForBisque({ part, spans: spans([0, 'open']), airOfSpot: steadyAir({ rh }), draws, horizonMin: 30 * DAY_MIN })

  test('in about the 65 h of the default run, give or take the clay', () => {
    const ready = ask()
    expect(earliestDryMin(ready, 0.5) / 60).toBeGreaterThan(45)
    expect(earliestDryMin(ready, 0.5) / 60).toBeLessThan(95)
    expect(earliestDryMin(ready, 0.9)).toBeGreaterThan(earliestDryMin(ready, 0.5))
    expect(oddsDryBy(ready, earliestDryMin(ready, 0.9))).toBeGreaterThanOrEqual(0.9)
    expect(oddsDryBy(ready, 60)).toBe(0)
  })

  test('later at a thick seam', () => {
    expect(earliestDryMin(ask(aPart({ thickestMm: 14 })), 0.9)).toBeGreaterThan(1.5 * earliestDryMin(ask(), 0.9))
  })

  test('never in air that is always damp: it is judged at 50 % at the most', () => {
    expect(earliestDryMin(ask(aPart(), 0.95), 0.5)).toBe(Infinity)
  })
})

describe('crack risk', () => {
  const follow = (part = aPart(), under = spans([0, 'open'])) =>
    trajectory({ part, spans: under, airOfSpot, draw: usualDraw, toMin: 3 * DAY_MIN })
  const at = (place: string, part = follow(), partners = [] as ReturnType<typeof follow>[]) =>
    crackRisks(part, partners, usualDraw).find((risk) => risk.place === place)!

  test('a tuck keeps it low everywhere', () => {
    for (const risk of crackRisks(follow(aPart(), spans([0, 'tucked'])), [], usualDraw)) {
      expect(risk).toMatchObject({ band: 'low', remedy: null })
    }
  })

  test('through thick ware in the open it is high, and a cover the remedy', () => {
    expect(at('through the thickness', follow(aPart({ thicknessMm: 19 })))).toMatchObject({
      band: 'high',
      remedy: 'cover-closer',
    })
  })

  test('a bare rim runs ahead of the middle; a strip helps', () => {
    const bare = at('rim against middle', follow(aPart({ rim: { widthMm: 15 } })))
    const strip = at('rim against middle', follow(aPart({ rim: { widthMm: 15, strip: 'loose' } })))
    expect(bare).toMatchObject({ band: 'high', remedy: 'strip-over-rim' })
    expect(strip.strainRatio).toBeLessThan(bare.strainRatio * 0.8)
  })

  test('one point of moisture is 0.53 to 0.64 % of length, and below the end of shrinkage nothing', () => {
    const still = (db: number) => ({ ...follow(), meanDb: follow().meanDb.map(() => db) })
    const strain = at('between partners', still(0.2), [still(0.19)]).strainRatio
    expect(strain).toBeGreaterThan(0.0053)
    expect(strain).toBeLessThan(0.0064)
    expect(at('between partners', still(0.13), [still(0.05)]).strainRatio).toBe(0)
  })
})

describe('moulds', () => {
  test('ware comes off a hump before it has shrunk by 1 % since it was laid on', () => {
    const path = trajectory({
      part: aPart(),
      spans: spans([0, 'open']),
      airOfSpot,
      draw: usualDraw,
      toMin: 2 * DAY_MIN,
    })
    // Draped at soft, 0.21 at 8.0 h; 1 % more of length is 1.7 points of moisture, 3.5 h at 0.49 points an hour.
    expect(latestReleaseMin(path, usualDraw, 480) / 60).toBeGreaterThan(10.5)
    expect(latestReleaseMin(path, usualDraw, 480) / 60).toBeLessThan(12.5)
    expect(latestReleaseMin(path, usualDraw, 0)).toBeLessThan(latestReleaseMin(path, usualDraw, 480))
  })
})

describe('runs under way', () => {
  const base = { part: aPart(), spans: spans([0, 'open']), observations: [], airOfSpot, draws, nowMin: 900 }
  const band = { from: 'leather hard', to: 'firm' } as const

  test('are where the model takes them', () => {
    const states = runStates(base)
    expect(states.map(({ minute }) => minute)).toEqual(draws.map(() => 900))
    const far = states.map(meanOf)
    expect(Math.max(...far) - Math.min(...far)).toBeGreaterThan(0.03)
  })

  test('agree with the hand in every draw', () => {
    const felt = runStates({ ...base, observations: [{ kind: 'felt', minute: 900, verdict: 'just right', band }] })
    felt.forEach((state, d) => {
      const { openAtDb, closeAtDb } = moistureBandOf(band, draws[d]!)
      expect(meanOf(state)).toBeLessThanOrEqual(openAtDb + 1e-9)
      expect(meanOf(state)).toBeGreaterThanOrEqual(closeAtDb - 1e-9)
    })
  })

  test('agree with the scale, each within its error', () => {
    // 10 % lighter than as cut: (1 + X0) 0.9 - 1 is 0.125 at 0.25.
    const weighed = runStates({
      ...base,
      observations: [{ kind: 'weighed', minute: 900, massRatio: 0.9, errorRatio: 0.002 }],
    })
    weighed.forEach((state, d) =>
      expect(Math.abs(meanOf(state) - ((1 + draws[d]!.startMoistureDb) * 0.9 - 1))).toBeLessThan(0.01),
    )
  })

  test('a verdict is kept while ware dries on', () => {
    const later = runStates({
      ...base,
      nowMin: 1500,
      observations: [{ kind: 'felt', minute: 900, verdict: 'too soft', band }],
    })
    const unfelt = runStates({ ...base, nowMin: 1500 })
    expect(Math.min(...later.map(meanOf))).toBeGreaterThan(Math.min(...unfelt.map(meanOf)))
  })
})

test('a moisture has a word', () => {
  expect([0.24, 0.2, 0.17, 0.13, 0.09, 0.01].map((db) => firmnessOf(db, usualDraw))).toEqual([
    undefined,
    'soft',
    'leather hard',
    'firm',
    'chalky',
    'bone dry',
  ])
})

describe('what cannot be is named', () => {
  test('in a clay', () => {
    expect(clayFaults(defaultClay)).toEqual([])
    expect(clayFaults({ ...defaultClay, startMoistureDb: plus(3, 0.01) })).toEqual([
      { code: 'out-of-range', params: { field: 'startMoistureDb', value: 3, low: 0.12, high: 0.6 } },
    ])
    expect(clayFaults({ ...defaultClay, oswinA: plus(NaN, 0) })[0]).toMatchObject({ code: 'not-a-number' })
    expect(clayFaults({ ...defaultClay, endOfShrinkageDb: plus(0.3, 0) })[0]).toMatchObject({
      code: 'shrinkage-ends-above-start',
    })
    expect(clayFaults({ ...defaultClay, feelShiftDb: plus(0, -1) })[0]).toMatchObject({
      params: { field: 'feelShiftDb.spread' },
    })
  })

  test('a clay that the forms accept is never not a number, at whatever ends of its ranges', () => {
    const rng = seededRng(6)
    const either = (ends: readonly number[]): number => ends[rng.int(ends.length)]!
    for (let n = 0; n < 60; n++) {
      const told = knownDrying.parse({
        startMoistureDb: { value: either([0.15, 0.4]), spread: 0.05, kind: 'plus' },
        endOfShrinkageDb: { value: either([0.05, 0.25]), spread: 0.05, kind: 'plus' },
        oswinA: { value: either([0.001, 0.1]), spread: 1, kind: 'times' },
        oswinB: { value: either([0.1, 1]), spread: 1, kind: 'times' },
        wetDiffusivityM2S: { value: either([1e-11, 1e-6]), spread: 1, kind: 'times' },
        diffusivityFall: { value: either([0, 15]), spread: 1, kind: 'plus' },
        vapourPermeability: { value: either([1e-13, 1e-9]), spread: 1, kind: 'times' },
        rimFactor: { value: either([1, 5]), spread: 1, kind: 'times' },
        feelShiftDb: { value: either([-0.05, 0.05]), spread: 0.05, kind: 'plus' },
      }) as Partial<ClayDrying>
      const clay = completedClay(told, either([0, 0.06, 0.2]))
      const air = steadyAir({ tempC: either([-20, 20, 55]), rh: either([0, 0.5, 1]) })
      for (const draw of jointDraws(priorBeliefs(clay), 3, n)) {
        const part = aPart({ thicknessMm: either([1, 6, 100]), rim: { widthMm: 15 } })
        const path = trajectory({ part, spans: spans([0, 'open']), airOfSpot: air, draw, toMin: 3 * DAY_MIN })
        const numbers = [...path.meanDb, ...path.rimDb, ...path.wettestDb, ...path.surfaceDb, ...path.tempC]
        expect(path.minute.at(-1)).toBe(3 * DAY_MIN)
        expect(numbers.every(Number.isFinite)).toBe(true)
      }
    }
  })

  test('in a part', () => {
    expect(partFaults(aPart())).toEqual([])
    expect(partFaults(aPart({ thicknessMm: 0 }))).toMatchObject([
      { code: 'out-of-range', params: { field: 'thicknessMm' } },
    ])
    expect(partFaults(aPart({ rim: { widthMm: Infinity } }))).toMatchObject([{ code: 'not-a-number' }])
  })

  test('in covers', () => {
    expect(spanFaults(spans([0, 'open'], [10, 'loose']))).toEqual([])
    expect(spanFaults([])).toMatchObject([{ code: 'no-cover-spans' }])
    expect(spanFaults(spans([10, 'open'], [0, 'loose']))).toMatchObject([
      { code: 'spans-do-not-rise', params: { span: 2 } },
    ])
  })
})
