import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  chained,
  lengthAt,
  multiplyingTrap,
  onWetLength,
  rulerDivisionMm,
  sizeAt,
  stagesFromMarks,
  stagesOf,
  totalShrinkage,
  usualShrunkBy,
  volumeShrinkage,
} from '#core/clay/shrinkage.ts'
import type { ClayShrinkage, SizeStage } from '#core/clay/types.ts'
import { bodies, traps, w16, w17, w19, w20, w21, w22 } from '../../golden/clay/workedExamples.ts'

const stages: readonly SizeStage[] = ['fresh', 'soft', 'leather hard', 'dry', 'bisque', 'finished']
const bodyOf = (totalRatio: number, dryingRatio = 0): ClayShrinkage => ({ length: stagesOf(totalRatio, dryingRatio) })

test('a measured bar gives each stage on its own start', () => {
  const { dryingRatio, bisqueRatio, glazeRatio } = stagesFromMarks(w16.marks)
  expect(dryingRatio * 100).toBeCloseTo(w16.dryingPct, 2)
  expect(bisqueRatio * 100).toBeCloseTo(w16.bisquePct, 2)
  expect(glazeRatio * 100).toBeCloseTo(w16.glazePct, 2)
  expect(totalShrinkage(stagesFromMarks(w16.marks)) * 100).toBeCloseTo(w16.totalPct, 2)
})

test('a shrinkage reckoned on the fired length is converted, and said so', () => {
  const { ratio, converted } = onWetLength(w17.ofFiredRatio, 'fired')
  expect(converted).toBe(true)
  expect(ratio * 100).toBeCloseTo(w17.ofWetPct, 2)
  expect(lengthAt(w17.firedMm, 'finished', 'fresh', bodyOf(ratio))).toBeCloseTo(w17.wetMm, 2)
  expect(lengthAt(w17.firedMm, 'finished', 'fresh', bodyOf(w17.ofFiredRatio))).toBeCloseTo(w17.mistakenWetMm, 1)
  expect(onWetLength(0.12, 'wet')).toEqual({ ratio: 0.12, converted: false })
})

describe.each(traps)('$firedMm mm at $ratio', ({ firedMm, ratio, wetMm, mistakenMm, firesToMm }) => {
  test(`is cut ${wetMm} mm wet`, () =>
    expect(lengthAt(firedMm, 'finished', 'fresh', bodyOf(ratio))).toBeCloseTo(wetMm, 2))
  test('multiplied instead comes out short by the square', () => {
    const trap = multiplyingTrap(firedMm, ratio)
    expect(trap.cutMm).toBeCloseTo(mistakenMm, 2)
    expect(trap.firesToMm).toBeCloseTo(firesToMm, 2)
    expect(trap.shortMm / firedMm).toBeCloseTo(ratio ** 2, 12)
  })
})

test('stages chain and are never summed', () => {
  expect(chained(w19.ratios) * 100).toBeCloseTo(w19.totalPct, 3)
  expect(chained(w19.ratios) * 100).not.toBeCloseTo(w19.sumPct, 1)
})

test('a supplier’s two figures leave the firing shrinkage on the dry length', () => {
  expect(stagesOf(w20.totalRatio, w20.dryingRatio).glazeRatio * 100).toBeCloseTo(w20.glazePct, 2)
})

test.each(bodies)('$name: its stages chain back to its total', ({ totalPct, dryingPct }) => {
  expect(totalShrinkage(stagesOf(totalPct / 100, dryingPct / 100, 0.01)) * 100).toBeCloseTo(totalPct, 9)
})

test('volume and ruler', () => {
  expect(volumeShrinkage(w21.linearRatio) * 100).toBeCloseTo(w21.volumePct, 2)
  expect(rulerDivisionMm(w22.firedMm, w22.ratio)).toBeCloseTo(w22.divisionMm, 3)
})

describe('states of a template', () => {
  test('soft has done about 2 and leather hard about 4 of 6 %', () => {
    expect(usualShrunkBy('fresh', 0.06)).toBe(0)
    expect(Math.abs(usualShrunkBy('soft', 0.06) * 6 - 2)).toBeLessThan(0.3)
    expect(Math.abs(usualShrunkBy('leather hard', 0.06) * 6 - 4)).toBeLessThan(0.3)
  })
  test('a template laid on at leather hard is smaller than one for fresh clay', () => {
    const body: ClayShrinkage = { length: stagesOf(0.12, 0.06), shrunkByLeatherHardRatio: 0.7 }
    // 300 / 0.88 = 340.909; at leather hard 0.7 of 6 % is done: 340.909 * (1 - 0.042) = 326.591
    expect(lengthAt(300, 'finished', 'leather hard', body)).toBeCloseTo(326.591, 3)
  })
  test('a clay that does not shrink in drying has one size until the bisque', () => {
    const body = bodyOf(0.06, 0)
    for (const stage of stages.slice(0, 5)) expect(lengthAt(100, 'fresh', stage, body)).toBe(100)
  })
})

describe('any body', () => {
  const ratio = (max: number) => fc.double({ min: 0, max, noNaN: true })
  const anyBody = fc
    .record({ drying: ratio(0.1), bisque: ratio(0.03), glaze: ratio(0.12) })
    .map(({ drying, bisque, glaze }): ClayShrinkage => ({
      length: { dryingRatio: drying, bisqueRatio: bisque, glazeRatio: glaze },
    }))

  test('shrinks from stage to stage, never grows', () => {
    fc.assert(
      fc.property(anyBody, (body) => {
        const lengths = stages.map((stage) => lengthAt(1000, 'fresh', stage, body))
        expect(lengths).toEqual(lengths.toSorted((a, b) => b - a))
      }),
      { seed: 1 },
    )
  })
  test('comes back to the length it started from', () => {
    fc.assert(
      fc.property(anyBody, fc.constantFrom(...stages), fc.constantFrom(...stages), (body, from, to) => {
        expect(lengthAt(lengthAt(250, from, to, body), to, from, body)).toBeCloseTo(250, 9)
      }),
      { seed: 2 },
    )
  })
})

test('length, width and thickness shrink each by its own', () => {
  const body: ClayShrinkage = {
    length: stagesOf(0.12, 0.06),
    width: stagesOf(0.125, 0.06),
    thickness: stagesOf(0.15, 0.08),
  }
  const wet = sizeAt({ lengthMm: 300, widthMm: 200, thicknessMm: 6 }, 'finished', 'fresh', body)
  expect(wet.lengthMm).toBeCloseTo(300 / 0.88, 9)
  expect(wet.widthMm).toBeCloseTo(200 / 0.875, 9)
  expect(wet.thicknessMm).toBeCloseTo(6 / 0.85, 9)
})

test('the size going into each kiln: dry for the bisque, bisque for the glaze firing', () => {
  const body: ClayShrinkage = { length: { dryingRatio: 0.06, bisqueRatio: 0.01, glazeRatio: 0.06 } }
  const finished = { lengthMm: 300, widthMm: 300, thicknessMm: 300 }
  expect(sizeAt(finished, 'finished', 'bisque', body).lengthMm).toBeCloseTo(300 / 0.94, 9)
  expect(sizeAt(finished, 'finished', 'dry', body).lengthMm).toBeCloseTo(300 / 0.94 / 0.99, 9)
})
