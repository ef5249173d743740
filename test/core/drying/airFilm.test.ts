import { describe, expect, test } from 'vitest'
import { humidityRatio, saturationPressurePa, SEA_LEVEL_PA } from '#core/air/psychrometrics.ts'
import {
  airProperties,
  filmOver,
  naturalHeatTransfer,
  vapourTransfer,
  type AirProperties,
} from '#core/drying/airFilm.ts'
import { fallsTo } from '#core/drying/windows.ts'
import { trajectory } from '#core/drying/fullModel.ts'
import { aPart, spans, steadyAir, usualDraw } from '../../support/dryingBuilders.ts'
import { wetPlates } from '../../golden/drying/wetPlates.ts'
import { shahPool } from '../../golden/drying/shahPool.ts'

/** Temperature and flux of a wet surface in balance with air alone. */
function wetSurface(
  heatWM2K: number,
  vapour: number,
  airC: number,
  vapourPa: number,
): { tempC: number; kgM2S: number } {
  let low = 0
  let high = airC
  const flux = (tempC: number): number => vapour * (saturationPressurePa(tempC) - vapourPa)
  while (high - low > 1e-6) {
    const tempC = (low + high) / 2
    if (heatWM2K * (airC - tempC) > (2.501e6 - 2361 * tempC) * flux(tempC)) low = tempC
    else high = tempC
  }
  return { tempC: low, kgM2S: flux(low) }
}

/** Zero of a falling function. */
function bisected(gain: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to]
  while (high - low > 1e-6) {
    const middle = (low + high) / 2
    if (gain(middle) > 0) low = middle
    else high = middle
  }
  return low
}

describe('heat and vapour through one film', () => {
  test('a wet can in the wind comes to 19.4 °C', () => {
    // Çengel, Heat and Mass Transfer, example 14-12: 30 °C, 40 %; alpha 2.141e-5, D 2.5e-5 m2/s.
    const air: AirProperties = { ...airProperties(25), viscosityM2S: 2.141e-5 * 0.709, vapourDiffusivityM2S: 2.5e-5 }
    const { tempC } = wetSurface(100, vapourTransfer(100, air, 25), 30, 0.4 * saturationPressurePa(30))
    expect(Math.abs(tempC - 19.4)).toBeLessThan(0.5)
  })

  test('a pan of wet sand in a drier', () => {
    // Geankoplis example 9.6-3: 65.6 °C, H 0.010, h 62.47 W/m2K, 0.457 m square: wet bulb 28.9 °C, 0.708 kg/h.
    const vapourPa = (SEA_LEVEL_PA * 0.01) / (0.621945 + 0.01)
    const { tempC, kgM2S } = wetSurface(62.47, vapourTransfer(62.47, airProperties(47), 47), 65.6, vapourPa)
    expect(Math.abs(tempC - 28.9)).toBeLessThan(1)
    expect(Math.abs((kgM2S * 0.457 ** 2 * 3600) / 0.708 - 1)).toBeLessThan(0.03)
  })

  test('the same pan with a warm roof above and heat through its bottom', () => {
    // Geankoplis example 9.8-1: as above, roof at 93.3 °C, emissivity 0.92, pan 0.61 mm of 43.3 W/mK, solid 25.4 mm of
    // 0.865 W/mK: 4.83 kg/(m2 h) printed (from memory), 4.86 and a surface at 32.6 °C recomputed by a companion.
    const vapourPa = (SEA_LEVEL_PA * 0.01) / (0.621945 + 0.01)
    const vapour = vapourTransfer(62.47, airProperties(49), 49)
    const below = 1 / (1 / 62.47 + 0.00061 / 43.3 + 0.0254 / 0.865)
    const radiated = (faceC: number): number => 0.92 * 5.67e-8 * ((93.3 + 273.15) ** 4 - (faceC + 273.15) ** 4)
    const balanceC = bisected(
      (faceC) =>
        (62.47 + below) * (65.6 - faceC) +
        radiated(faceC) -
        (2.501e6 - 2361 * faceC) * vapour * (saturationPressurePa(faceC) - vapourPa),
      10,
      60,
    )
    const kgM2H = vapour * (saturationPressurePa(balanceC) - vapourPa) * 3600
    expect(Math.abs(balanceC - 32.6)).toBeLessThan(1)
    expect(Math.abs(kgM2H / 4.86 - 1)).toBeLessThan(0.03)
  })

  test('a pan at the wet bulb', () => {
    // Treybal illustration 12.4(b): 65 °C, Y 0.01, h 21.93 W/m2K, 0.7 m square: 28.5 °C, 1.61e-4 kg/s.
    const vapourPa = (SEA_LEVEL_PA * 0.01) / (0.621945 + 0.01)
    const { kgM2S } = wetSurface(21.93, vapourTransfer(21.93, airProperties(47), 47), 65, vapourPa)
    expect(Math.abs((kgM2S * 0.49) / 1.61e-4 - 1)).toBeLessThan(0.03)
  })
})

test('a pool under turbulent wind behind its deck', () => {
  // Incropera example 7.3: 12 m of water behind 1.5 m of deck, 6 m wide, 2 m/s, 25 °C, 50 %: 406 kg a day as recomputed by
  // a companion (405 printed, from memory). The plate's correlation is the book's, for heat; from there on ours:
  // Nu = 0.037 Re^(4/5) Pr^(1/3) L / (L - d) (1 - (d / L)^(9/10))^(8/9).
  const air = airProperties(25)
  const [deckM, lengthM, waterM2] = [1.5, 13.5, 72]
  const wholePlate = 0.037 * ((2 * lengthM) / air.viscosityM2S) ** 0.8 * Math.cbrt(air.prandtl)
  const behindDeck = (lengthM / (lengthM - deckM)) * (1 - (deckM / lengthM) ** 0.9) ** (8 / 9)
  const heatWM2K = (wholePlate * behindDeck * air.conductivityWMK) / lengthM
  const kgDay = vapourTransfer(heatWM2K, air, 25) * 0.5 * saturationPressurePa(25) * waterM2 * 86_400
  // Air's and vapour's properties differ by 1 to 2 % from the book's.
  expect(Math.abs(kgDay / 406 - 1)).toBeLessThan(0.03)
})

describe('buoyancy', () => {
  test('over warm water gives the book’s coefficient', () => {
    // Çengel example 14-13, recomputed: Gr 2.121e8, Nu 0.15 Ra^(1/3) = 80.4, area over perimeter 3.5 x 1 m: 5.47 W/m2K.
    const lengthM = 3.5 / 9
    const air = { ...airProperties(37), conductivityWMK: 0.02644, prandtl: 0.7262, viscosityM2S: 1.849e-5 }
    const lightness = (-2.121e8 * air.viscosityM2S ** 2) / (9.81 * lengthM ** 3)
    expect(naturalHeatTransfer(lightness, lengthM, air)).toBeCloseTo(5.47, 1)
  })

  test.each(shahPool)('over a pool at $waterC °C under air of $airC °C within 15 % of the table', (pool) => {
    const { waterC, airC, rh, kgM2H, densityDifference } = pool
    const air = airProperties((waterC + airC) / 2)
    // A pool is large: in the turbulent range its size does not matter.
    const heat = naturalHeatTransfer(-densityDifference / air.densityKgM3, 5, air)
    const flux =
      vapourTransfer(heat, air, (waterC + airC) / 2) * (saturationPressurePa(waterC) - rh * saturationPressurePa(airC))
    expect(humidityRatio(waterC, 1)).toBeGreaterThan(humidityRatio(airC, rh))
    expect(Math.abs((flux * 3600) / kgM2H - 1)).toBeLessThan(0.15)
  })
})

test('wet clay at 20 °C, 50 %, still air gives off 50 g/(m2 h) from a face at 17.1 °C', () => {
  // Own energy balance in DRYING; Pauken (1999) 62, Shah 39, EN 15026 70 for the same face (from memory) bracket it.
  const { minute, meanDb, tempC, givenOffKgM2 } = trajectory({
    part: aPart(),
    spans: spans([0, 'open']),
    airOfSpot: steadyAir(),
    draw: usualDraw,
    toMin: 300,
  })
  const from = minute.indexOf(120)
  const gramsM2H = ((givenOffKgM2.at(-1)! - givenOffKgM2[from]!) / 3) * 1000
  expect(gramsM2H).toBeGreaterThan(47)
  expect(gramsM2H).toBeLessThan(53)
  expect(tempC.at(-1)!).toBeCloseTo(17.1, 0)
  expect(fallsTo(minute, meanDb, 0.24)).toBeLessThan(300)
})

describe('a wet plate in a room', () => {
  test.each(wetPlates)('at $airC °C, $rh, $airSpeedMS m/s', ({ airC, rh, airSpeedMS, faceC, gramsM2H, published }) => {
    const { heatWM2K, vapourKgM2SPa } = filmOver((airC + faceC) / 2, airSpeedMS, 0.3)
    const { tempC, kgM2S } = wetSurface(heatWM2K + 9, vapourKgM2SPa, airC, rh * saturationPressurePa(airC))
    expect(Math.abs((kgM2S * 3.6e6) / gramsM2H - 1)).toBeLessThan(0.08)
    expect(Math.abs(tempC - faceC)).toBeLessThan(0.3)
    // The published correlations differ by a factor of two to four: the model lies among them.
    expect(kgM2S * 3.6e6).toBeGreaterThan(0.95 * Math.min(...published))
    expect(kgM2S * 3.6e6).toBeLessThan(1.15 * Math.max(...published))
  })
})
