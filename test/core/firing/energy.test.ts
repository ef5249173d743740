import { describe, expect, test } from 'vitest'
import {
  carbonKg,
  circuitNote,
  energyByDutyKwh,
  firingCost,
  firingEnergy,
  fuelAmount,
  fuelKwh,
  lossFactorFrom,
  usualDuty,
} from '#core/firing/energy.ts'
import { CERAMIC_KJ_PER_KG_K, KAOLINITE_WATER_RATIO, STEAM_KJ_PER_KG } from '#core/firing/heat.ts'
import { usualKilnFiring } from '#core/firing/kilnSizes.ts'
import { firingTimes } from '#core/firing/times.ts'
import { genericKilns, meteredFirings } from '../../golden/firing/kilns.ts'
import * as worked from '../../golden/firing/workedExamples.ts'
import { aGlazeFiring, aKiln, aLoad, timesOf } from './firings.ts'

const { w12, w13w15, w24to28, w29, w30, w31, w32, w33, w37, w43 } = worked

describe('the energy balance', () => {
  const balances = [
    { name: 'glaze 6', segments: w32.segments, load: w32.load, kwh: w32.kwh, dutyRatio: w32.dutyRatio },
    { name: 'bisque 06', segments: w12.segments, load: w33.load, kwh: w33.kwh, dutyRatio: w33.dutyRatio },
  ]
  test.each(balances)('of a $name firing agrees with the worked one', ({ segments, load, kwh, dutyRatio }) => {
    const { curve } = timesOf(firingTimes(aGlazeFiring({ segments }), aKiln(), load))
    const energy = firingEnergy(curve, aKiln(), load)
    const close = (ours: number, worked: number) => expect(Math.abs(ours - worked)).toBeLessThan(w32.toleranceKwh)
    close(energy.wareKwh, kwh.ware)
    close(energy.furnitureKwh, kwh.furniture)
    close(energy.brickKwh, kwh.brick)
    close(energy.wallKwh, kwh.wall)
    close(energy.waterKwh, kwh.water)
    close(energy.dehydroxylationKwh, kwh.dehydroxylation)
    close(energy.totalKwh, kwh.total)
    expect(energy.dutyRatio).toBeCloseTo(dutyRatio, 2)
  })

  test.each(meteredFirings)(
    'to $toC °C in a $kiln kiln is within a fifth of the meter',
    ({ kiln: name, toC, hours, kwh, load }) => {
      const measures = genericKilns.find((kiln) => kiln.name === name)!
      const kiln = { ...usualOf(measures), lossFactor: 1.1 }
      const segments = [{ rateCPerH: (toC - 22) / hours, targetC: toC, holdMin: 0 }]
      const totalOf = (share: number) => {
        const { wareKg, furnitureKg } = measures
        const inside = { wareKg: wareKg * share, furnitureKg: furnitureKg * share, waterKg: 0, kaoliniteRatio: 0 }
        return timesOf(firingTimes(aGlazeFiring({ segments }), kiln, inside)).curve.at(-1)!.usedKwh
      }
      // Where nobody said what stood in it, the reading lies between an empty kiln and a full one.
      expect(totalOf(1)).toBeGreaterThan(kwh[0] * 0.8)
      expect(totalOf(load === 'full' ? 1 : 0)).toBeLessThan(kwh[1] * 1.2)
    },
  )

  test('a meter reading sets the loss factor, within belief', () => {
    expect(lossFactorFrom(60, 50, aKiln())).toBeCloseTo(1.2, 12)
    expect(lossFactorFrom(60, 60, aKiln({ lossFactor: 1.2 }))).toBeCloseTo(1.2, 12)
    expect(lossFactorFrom(500, 50, aKiln())).toBe(1.6)
    expect(lossFactorFrom(10, 50, aKiln())).toBe(1)
  })

  test('a firing whose loss factor was learned draws what the meter said', () => {
    const draw = (lossFactor: number) =>
      timesOf(firingTimes(aGlazeFiring(), aKiln({ lossFactor }), aLoad())).curve.at(-1)!.usedKwh
    expect(draw(lossFactorFrom(62, draw(1), aKiln()))).toBeCloseTo(62, 1)
  })
})

describe('constants', () => {
  test('kaolinite’s water and steam', () => {
    expect(KAOLINITE_WATER_RATIO).toBeCloseTo(w13w15.kaoliniteWaterKg, 4)
    expect(Math.abs(STEAM_KJ_PER_KG - w13w15.steamKj)).toBeLessThan(1)
  })
  test('the specific heat lies within 4 % of the mean of the published formula to either cone', () => {
    expect(Math.abs(worked.kaolinSpecificHeat(1000) - 1194)).toBeLessThan(0.5)
    for (const topC of [1000, 1222]) {
      const temps = Array.from({ length: topC - 20 }, (_, index) => index + 20.5 + 273.15)
      const mean = temps.reduce((sum, tempK) => sum + worked.kaolinSpecificHeat(tempK), 0) / temps.length
      expect(Math.abs(CERAMIC_KJ_PER_KG_K * 1000 - mean) / mean).toBeLessThan(0.04)
    }
  })
})

describe('by the nameplate', () => {
  test.each(Object.entries(w24to28))('%s', (_, example) => {
    const kwh = energyByDutyKwh(example.parts)
    expect(Math.abs(kwh - example.kwh)).toBeLessThan(0.01)
    if ('cost' in example) expect(Math.abs(kwh * example.pricePerKwh - example.cost)).toBeLessThan(0.01)
  })
  test('the duties are those of the published rule', () => {
    expect(usualDuty.candling).toBe(w24to28.w24.parts[0].dutyRatio)
    expect(usualDuty.bisque).toBe(w24to28.w24.parts[1].dutyRatio)
  })
})

describe('fuel', () => {
  test('a dollar of propane and of electricity', () => {
    const propaneBtu = (fuelKwh['gallon of propane'] * w29.btuPerKwh) / w29.gallonPrice
    expect(Math.abs(propaneBtu - w29.propaneBtu) / w29.propaneBtu).toBeLessThan(0.001)
    expect(Math.abs(w29.btuPerKwh / w29.kwhPrice - w29.electricBtu)).toBeLessThan(1)
  })
  test('of a gas kiln, by the hour', () => {
    const burnerKw = w30.burnerBtuPerH * 0.000293071
    w30.hours.forEach((hours, index) =>
      expect(Math.abs(fuelAmount(burnerKw, hours, 'kg of propane') - w30.propaneKg[index]!)).toBeLessThan(
        w30.toleranceKg,
      ),
    )
  })
  test.each(w31.thermPerTonne.map((therm, index) => [therm, w31.kwhPerKg[index]!]))(
    '%f therm/t is %f kWh/kg',
    (therm, kwh) => {
      expect(Math.abs((therm * fuelKwh.therm) / 1000 - kwh)).toBeLessThan(0.01)
    },
  )
})

describe('cost by the clock', () => {
  const { curve } = timesOf(firingTimes(aGlazeFiring(), aKiln(), aLoad()))
  const totalKwh = curve.at(-1)!.usedKwh

  test('without spans is energy times price', () => {
    expect(firingCost(curve, 0, { basePricePerKwh: 0.3, spans: [] })).toBeCloseTo(totalKwh * 0.3, 9)
  })
  test('a span over the whole firing replaces the price', () => {
    const spans = [{ startMin: -100, endMin: 10_000, pricePerKwh: 0.1 }]
    expect(firingCost(curve, 0, { basePricePerKwh: 0.3, spans })).toBeCloseTo(totalKwh * 0.1, 9)
  })
  test('two spans that meet cost as much as their parts, whenever the kiln is lit', () => {
    for (const startMin of [0, 37, 200, 450]) {
      const cheap = (fromMin: number, toMin: number) => [{ startMin: fromMin, endMin: toMin, pricePerKwh: 0.1 }]
      const saved = (spans: ReturnType<typeof cheap>) =>
        totalKwh * 0.3 - firingCost(curve, startMin, { basePricePerKwh: 0.3, spans })
      expect(saved(cheap(0, 300)) + saved(cheap(300, 2000))).toBeCloseTo(saved(cheap(0, 2000)), 9)
    }
  })
  test('time after shut-off costs nothing', () => {
    const spans = [{ startMin: 460, endMin: 9000, pricePerKwh: 99 }]
    expect(firingCost(curve, 0, { basePricePerKwh: 0.3, spans })).toBeCloseTo(totalKwh * 0.3, 9)
  })
})

test('carbon by the factor of the supply', () => {
  expect(Math.abs(carbonKg(w43.kwh, w43.kgPerKwh) - w43.carbonKg)).toBeLessThan(0.1)
})

test.each(w37)('a kiln of %i A wants a circuit of %i A', (kilnA, circuitA) => {
  expect(circuitNote(kilnA)).toEqual({ code: 'circuit-at-least', params: { kilnA, circuitA } })
})
test('no circuit is named above the table', () => expect(circuitNote(161)).toBeUndefined())

describe('kilns by tape and plate', () => {
  test.each(genericKilns)('$name cools within a tenth of its table', (kiln) => {
    const { coolingTauH, ventedTauH } = usualOf(kiln)
    expect(Math.abs(coolingTauH - kiln.tauH) / kiln.tauH).toBeLessThan(0.1)
    expect(ventedTauH).toBeGreaterThan(kiln.ventedTauH[0] * 0.9)
    expect(ventedTauH).toBeLessThan(kiln.ventedTauH[1] * 1.1)
  })
  test('the studio kiln has the brick and walls of the worked balance', () => {
    const { brickKg, wallLossWPerK } = usualOf(genericKilns[1])
    expect(Math.abs(brickKg - w32.kiln.brickKg) / w32.kiln.brickKg).toBeLessThan(0.03)
    expect(Math.abs(wallLossWPerK - w32.kiln.wallLossWPerK) / w32.kiln.wallLossWPerK).toBeLessThan(0.03)
  })
})

function usualOf({ insideMm, wallMm, powerKw }: (typeof genericKilns)[number]) {
  const [acrossMm, heightMm] = insideMm
  return usualKilnFiring({
    insideWidthMm: acrossMm,
    insideDepthMm: acrossMm,
    insideHeightMm: heightMm,
    isRound: true,
    wallMm,
    powerKw,
    maxTempC: 1290,
  })
}
