import { describe, expect, test } from 'vitest'
import { absorptionNote, absorptionOf } from '#core/clay/absorption.ts'
import { cautions, cautionsFor } from '#core/clay/cautions.ts'
import { euFoodContact, passesEuLeachTest, usFoodContact } from '#core/clay/foodContact.ts'
import { dryMassKg, moistureDbFromWetBasis, pieceMass, plasticDensityKgM3 } from '#core/clay/mass.ts'
import { w14, w23, w40, w41 } from '../../golden/clay/workedExamples.ts'

describe('mass', () => {
  test('water on the wet basis becomes moisture on the dry basis', () => {
    expect(moistureDbFromWetBasis(w14.wetBasisRatio)).toBeCloseTo(w14.moistureDb, 12)
    expect(dryMassKg(w14.plasticKg, w14.moistureDb)).toBeCloseTo(w14.dryKg, 12)
  })
  test('plastic clay weighs about two tonnes a cubic metre', () => {
    // Common practice, no source: 1.9-2.0 g/cm³ for bagged clay.
    expect(plasticDensityKgM3(0.25)).toBeGreaterThan(1900)
    expect(plasticDensityKgM3(0.25)).toBeLessThan(2010)
  })
  test('a piece is the sum of its parts', () => {
    const wet = { lengthMm: 500, widthMm: 200, thicknessMm: 10 }
    // 2 parts of 0.001 m³ at 1.25 / (1/2650 + 0.25/1000) = 1992.5 kg/m³
    const { plasticKg, dryKg } = pieceMass([{ countPerPiece: 2, wet }], 0.25)
    expect(plasticKg).toBeCloseTo(3.985, 3)
    expect(dryKg).toBeCloseTo(3.188, 3)
    expect(pieceMass([{ countPerPiece: 2, wet }], 0.25, 0.5).plasticKg).toBeCloseTo(plasticKg / 2, 12)
  })
})

describe('absorption', () => {
  test('by the formulas of ASTM C373', () => {
    const found = absorptionOf(w23.weighings)
    if ('reason' in found) throw new Error(found.reason)
    expect(found.absorptionRatio * 100).toBeCloseTo(w23.absorptionPct, 3)
    expect(found.exteriorVolumeCm3).toBeCloseTo(w23.volumeCm3, 9)
    expect(found.porosityRatio * 100).toBeCloseTo(w23.porosityPct, 3)
    expect(found.bulkDensityGCm3).toBeCloseTo(w23.bulkGCm3, 4)
    expect(found.apparentGravity).toBeCloseTo(w23.apparent, 3)
  })
  test('weighings that cannot be say why', () => {
    expect(absorptionOf({ ...w23.weighings, saturatedG: 99 })).toEqual({ reason: 'saturated-below-dry' })
    expect(absorptionOf({ ...w23.weighings, suspendedG: 100 })).toEqual({ reason: 'suspended-not-below-dry' })
    expect(absorptionOf({ ...w23.weighings, dryG: 0 })).toEqual({ reason: 'not-positive' })
    expect(absorptionOf({ ...w23.weighings, dryG: NaN })).toEqual({ reason: 'not-positive' })
  })
  test('a porous body is noted for what it is used for', () => {
    expect(absorptionNote(0.012, 'oven')).toBeUndefined()
    expect(absorptionNote(0.05, 'oven')).toBe('porous-for-the-oven')
    expect(absorptionNote(0.05, 'outdoor')).toBe('porous-for-frost')
  })
})

describe('food contact', () => {
  test.each(w40)('$depthMm mm deep, $capacityL L: $category', ({ depthMm, capacityL, ...limits }) => {
    expect(usFoodContact({ depthMm, capacityL, use: 'table' })).toEqual(limits)
  })
  test('cups and pitchers have their own lead limit', () => {
    expect(usFoodContact({ depthMm: 90, capacityL: 0.35, use: 'cup' })).toMatchObject({
      category: 'cups and mugs',
      leadUgMl: 0.5,
    })
    expect(usFoodContact({ depthMm: 200, capacityL: 1.5, use: 'pitcher' })).toMatchObject({
      leadUgMl: 0.5,
      cadmiumUgMl: 0.25,
    })
  })
  // 84/500/EEC art. 2(4)
  test.each([
    [
      { depthMm: 25, capacityL: 0.4, use: 'table' },
      { category: 1, lead: 0.8, cadmium: 0.07, unit: 'mg/dm2' },
    ],
    [
      { depthMm: 60, capacityL: 2, use: 'table' },
      { category: 2, lead: 4, cadmium: 0.3, unit: 'mg/L' },
    ],
    [
      { depthMm: 60, capacityL: 2, use: 'cooking' },
      { category: 3, lead: 1.5, cadmium: 0.1, unit: 'mg/L' },
    ],
    [
      { depthMm: 200, capacityL: 3, use: 'storage' },
      { category: 2, lead: 4, cadmium: 0.3, unit: 'mg/L' },
    ],
    [
      { depthMm: 200, capacityL: 3.1, use: 'storage' },
      { category: 3, lead: 1.5, cadmium: 0.1, unit: 'mg/L' },
    ],
  ] as const)('EU: %o is %o', (ware, limits) => expect(euFoodContact(ware)).toEqual(limits))

  test('a result over the limit passes by its fellows, or not', () => {
    expect(passesEuLeachTest(w41.result, w41.others, w41.limit)).toBe(true)
    expect(passesEuLeachTest(w41.result, w41.others.slice(1), w41.limit)).toBe(false)
    expect(passesEuLeachTest(1.21, w41.others, w41.limit)).toBe(false)
    expect(passesEuLeachTest(w41.result, [0.6, 0.7, 1.3], w41.limit)).toBe(false)
    expect(passesEuLeachTest(w41.result, [0.9, 0.9, 0.9], w41.limit)).toBe(false)
    expect(passesEuLeachTest(0.8, [], w41.limit)).toBe(true)
  })
})

describe('cautions', () => {
  test('every firing has somebody there, air, and nothing that burns', () => {
    for (const firing of ['bisque', 'glaze'] as const) {
      const found = cautionsFor({ doing: 'firing', firing })
      expect(found).toEqual(expect.arrayContaining(['be-there-at-shut-off', 'kiln-fumes', 'nothing-that-burns-near']))
    }
  })
  test('damp ware bursts in the bisque only, and not when it is dry', () => {
    expect(cautionsFor({ firing: 'bisque', oddsDry: 0.8 })).toContain('damp-ware-bursts')
    expect(cautionsFor({ firing: 'bisque', oddsDry: 0.99 })).not.toContain('damp-ware-bursts')
    expect(cautionsFor({ firing: 'glaze', oddsDry: 0.8 })).not.toContain('damp-ware-bursts')
  })
  test('a low-fire clay at cone 5 may lack its zero', () => {
    const clay = { clayConeLow: '06', clayConeHigh: '04' }
    expect(cautionsFor({ firing: 'glaze', cone: '5', ...clay })).toEqual(['outside-clay-range', 'cone-leading-zero'])
    expect(cautionsFor({ firing: 'glaze', cone: '05', ...clay })).toEqual([])
    expect(cautionsFor({ firing: 'bisque', cone: '5', ...clay })).toContain('cone-leading-zero')
    expect(cautionsFor({ firing: 'glaze', cone: '9', ...clay })).toEqual(['outside-clay-range'])
  })
  test('a bisque below the clay’s range is as it should be', () => {
    expect(cautionsFor({ firing: 'bisque', cone: '06', clayConeLow: '5', clayConeHigh: '7' })).toEqual([])
  })
  test('oven and food ware', () => {
    expect(cautionsFor({ doing: 'selling', isForOven: true })).toEqual(['oven-ware-care', 'oven-ware-test'])
    expect(cautionsFor({ isForFood: true, glazeIsTested: false })).toEqual(['leach-test'])
    expect(cautionsFor({ isForFood: true, glazeIsTested: true })).toEqual([])
    expect(cautionsFor({ isForFood: true, isCrazed: true })).toEqual(['crazed-food-ware'])
  })
  test('each is listed once and has its source', () => {
    expect(new Set(cautions.map(({ code }) => code)).size).toBe(cautions.length)
    for (const { source } of cautions) expect(source.length).toBeGreaterThan(5)
  })
})
