import { describe, expect, test } from 'vitest'
import { quickSaturationPa } from '#core/air/saturationTable.ts'
import { meanDbOf } from '#core/drying/slab.ts'
import { advance } from '#core/drying/slabStep.ts'
import { aSlabOf, isothermal, type Material } from '../../support/dryingBuilders.ts'
import { crankPlaneSheet } from '../../golden/drying/crankPlaneSheet.ts'

const HOUR_S = 3600
const at20Pa = quickSaturationPa(20)

/** Hours until a slab's mean has fallen to a moisture under a face that takes `kgM2S` when its activity is 1. */
function hoursTo(material: Material, kgM2S: number, moistureDb: number, stepS = 20): number {
  const slab = aSlabOf(material)
  const around = isothermal({ topKgM2SPa: kgM2S / at20Pa })
  let seconds = 0
  let before = material.startDb
  while (meanDbOf(slab) > moistureDb && seconds < 1e6) {
    before = meanDbOf(slab)
    advance(slab, around, stepS)
    seconds += stepS
  }
  const share = (before - moistureDb) / (before - meanDbOf(slab))
  return (seconds - stepS + share * stepS) / HOUR_S
}

describe('a plane sheet of constant diffusivity', () => {
  // Half thickness 1 in dry mass, diffusivity 1e-5: one unit of Fourier number is 1e5 s. The face follows the moisture.
  test.each(crankPlaneSheet)('at Biot number $biot leaves what Crank says within 5e-4', ({ biot, left }) => {
    const liquid = 1e-5
    const slab = aSlabOf({ dryMassKgM2: 1, startDb: 0.25, liquid, activity: (moistureDb) => moistureDb })
    const transfer = Math.min(biot, 1e7) * liquid
    const around = isothermal({ topKgM2SPa: transfer / at20Pa })
    let fourier = 0
    for (const [wanted, share] of left) {
      const steps = 400
      const stepS = (wanted - fourier) / liquid / steps
      for (let step = 0; step < steps; step++) advance(slab, around, stepS)
      fourier = wanted
      expect(Math.abs(meanDbOf(slab) / 0.25 - share)).toBeLessThan(5e-4)
    }
  })

  test('takes the hours of a two-sided clay slab', () => {
    // Geankoplis, Transport Processes and Unit Operations (3rd ed.), example 9.9-1: 25.4 mm from both faces,
    // D 2.97e-6 m2/h, free moisture 0.25 to 0.05: 30.8 h by one term, 30.4 h by chart.
    const halfM = 0.0127
    const liquid = 2.97e-6 / HOUR_S / halfM ** 2
    const hours = hoursTo(
      { dryMassKgM2: 1, startDb: 0.25, liquid, activity: (db) => Math.min(1, db * 400) },
      1,
      0.05,
      60,
    )
    expect(hours).toBeGreaterThan(30.3)
    expect(hours).toBeLessThan(30.95)
  })
})

describe('rate curves of textbooks, diffusion being no hindrance', () => {
  /** Straight lines between points of a rate curve, as shares of the constant rate. */
  const curve =
    (points: readonly (readonly [moistureDb: number, rate: number])[], constant: number) =>
    (moistureDb: number): number => {
      const above = points.findIndex(([db]) => db >= moistureDb)
      if (above < 0) return 1
      const [highDb, highRate] = points[above]!
      const [lowDb, lowRate] = points[above - 1] ?? [0, 0]
      return (lowRate + ((moistureDb - lowDb) / (highDb - lowDb)) * (highRate - lowRate)) / constant
    }
  const free = 1e3

  test('constant rate', () => {
    // Geankoplis example 9.6-2: 21.5 kg/m2, 1.51 kg/(m2 h), 0.38 to 0.25: 1.85 h.
    const material = { dryMassKgM2: 21.5, startDb: 0.38, liquid: free, activity: () => 1 }
    expect(hoursTo(material, 1.51 / HOUR_S, 0.25)).toBeCloseTo(1.85, 2)
  })

  test('a porous slab at the wet bulb', () => {
    // Cussler, Diffusion, example 21.3-1: 40 mm of porosity 0.36, 30 W/m2K across 75 - 31 K, 2.3 MJ/kg: 6.97 h for all of
    // its 14.4 kg/m2. Here down to a twentieth of that.
    const material = { dryMassKgM2: 40, startDb: 0.36, liquid: free, activity: () => 1 }
    expect(hoursTo(material, (30 * 44) / 2.3e6, 0.018) / 0.95).toBeCloseTo(6.97, 2)
  })

  test('rate falling to nothing in a straight line', () => {
    // Geankoplis example 9.7-2: 399 kg on 18.58 m2, 1.51 kg/(m2 h) down to 0.195, then in proportion to 0.04: 4.39 h.
    const material = {
      dryMassKgM2: 399 / 18.58,
      startDb: 0.195,
      liquid: free,
      activity: (db: number) => Math.min(1, db / 0.195),
    }
    expect(Math.abs(hoursTo(material, 1.51 / HOUR_S, 0.04) - 4.39)).toBeLessThan(0.01)
  })

  test('a measured rate curve', () => {
    // Geankoplis example 9.7-1: rates at these moistures, 0.38 to 0.04, 21.5 kg/m2: 6.54 h by Simpson's rule.
    const rates = [
      [0.04, 0.27],
      [0.05, 0.37],
      [0.065, 0.71],
      [0.1, 0.9],
      [0.15, 1.21],
      [0.195, 1.51],
    ] as const
    const material = { dryMassKgM2: 21.5, startDb: 0.38, liquid: free, activity: curve(rates, 1.51) }
    expect(Math.abs(hoursTo(material, 1.51 / HOUR_S, 0.04) / 6.54 - 1)).toBeLessThan(0.03)
  })

  test('another measured rate curve', () => {
    // Treybal, Mass-Transfer Operations (3rd ed.), illustration 12.3: 40 kg/m2, 0.3e-3 kg/(m2 s) down to 0.2, from 25 %
    // to 6 % of wet weight: 16.72 h. Here the rate runs straight between points, there its reciprocal does.
    const rates = [
      [0.064, 0.025],
      [0.07, 0.043],
      [0.08, 0.07],
      [0.09, 0.097],
      [0.1, 0.15],
      [0.12, 0.18],
      [0.14, 0.208],
      [0.16, 0.239],
      [0.18, 0.266],
      [0.2, 0.3],
    ] as const
    const material = { dryMassKgM2: 40, startDb: 1 / 3, liquid: free, activity: curve(rates, 0.3) }
    expect(Math.abs(hoursTo(material, 0.3e-3, 0.06 / 0.94) / 16.72 - 1)).toBeLessThan(0.02)
  })
})

test('water is neither made nor lost', () => {
  const slab = aSlabOf({ dryMassKgM2: 12, startDb: 0.25, liquid: 2e-2, activity: (db) => db / (db + 0.03) })
  const around = isothermal({ topKgM2SPa: 2e-8, bottomKgM2SPa: 1e-8, suctionKgM2S: 5e-5, suctionCapacityKgM2: 2 })
  const { top, bottom, board } = slab.scratch
  let left = 0
  for (let step = 0; step < 200; step++) {
    const before = meanDbOf(slab)
    advance(slab, around, 600)
    left += slab.dryMassKgM2 * (before - meanDbOf(slab))
    // What leaves by each face at the step's end accounts for what the cells lost, within the rounds' closing error.
    const fluxes = (top.kgM2S + bottom.kgM2S + board.kgM2S) * 600
    expect(Math.abs(slab.dryMassKgM2 * (before - meanDbOf(slab)) - fluxes)).toBeLessThan(0.01 * Math.abs(fluxes) + 1e-9)
  }
  expect(Math.abs(left - slab.givenOffKgM2)).toBeLessThan(1e-9)
})
