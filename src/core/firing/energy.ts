import { MIN_PER_HOUR, S_PER_HOUR } from '#core/units.ts'
import type { Minute } from '#core/time.ts'
import { brickKjPerK, CERAMIC_KJ_PER_KG_K, DEHYDROXYLATION_KJ_PER_KG, STEAM_KJ_PER_KG } from './heat.ts'
import type { CurvePoint, FiringLoad, KilnFiring, Tariff } from './types.ts'

/** Where a firing's energy goes; parts without the loss factor, total with it. */
export type FiringEnergy = {
  readonly wareKwh: number
  readonly furnitureKwh: number
  readonly brickKwh: number
  readonly wallKwh: number
  readonly waterKwh: number
  readonly dehydroxylationKwh: number
  readonly totalKwh: number
  /** Total over what full power would draw in that time. */
  readonly dutyRatio: number
}

/**
 * Where the energy of a firing goes.
 * @param curve from `firingTimes`
 * @returns an estimate: measured firings differ by load, element age and kiln; one meter reading sets the loss factor
 * @see W32 and W33 in test/golden/firing/workedExamples.ts; metered firings in kilns.ts beside it
 */
export function firingEnergy(curve: readonly CurvePoint[], kiln: KilnFiring, load: FiringLoad): FiringEnergy {
  const startC = curve[0]!.tempC
  const topC = Math.max(...curve.map(({ tempC }) => tempC))
  const powered = curve.filter(({ phase }) => phase !== 'cooling')
  const kwhOf = (kjPerK: number): number => (kjPerK * (topC - startC)) / S_PER_HOUR
  const wareKwh = kwhOf(load.wareKg * CERAMIC_KJ_PER_KG_K)
  const furnitureKwh = kwhOf(load.furnitureKg * CERAMIC_KJ_PER_KG_K)
  const brickKwh = kwhOf(brickKjPerK(kiln))
  const waterKwh = (load.waterKg * STEAM_KJ_PER_KG) / S_PER_HOUR
  const dehydroxylationKwh = (load.wareKg * load.kaoliniteRatio * DEHYDROXYLATION_KJ_PER_KG) / S_PER_HOUR
  const totalKwh = curve.at(-1)!.usedKwh
  const wallKwh = totalKwh / kiln.lossFactor - wareKwh - furnitureKwh - brickKwh - waterKwh - dehydroxylationKwh
  const hours = powered.at(-1)!.atMin / MIN_PER_HOUR
  const dutyRatio = totalKwh / (kiln.powerKw * hours)
  return { wareKwh, furnitureKwh, brickKwh, wallKwh, waterKwh, dehydroxylationKwh, totalKwh, dutyRatio }
}

/**
 * What a firing costs under a tariff by the clock.
 * @param startMin when the kiln is lit
 * @param tariff spans disjoint, in epoch minutes; where none holds the base price does
 */
export function firingCost(curve: readonly CurvePoint[], startMin: Minute, tariff: Tariff): number {
  let cost = 0
  for (let i = 1; i < curve.length; i++) {
    const from = curve[i - 1]!
    const to = curve[i]!
    const kwh = to.usedKwh - from.usedKwh
    if (kwh > 0) cost += kwh * meanPrice(startMin + from.atMin, startMin + to.atMin, tariff)
  }
  return cost
}

function meanPrice(fromMin: number, toMin: number, { basePricePerKwh, spans }: Tariff): number {
  let extra = 0
  for (const { startMin, endMin, pricePerKwh } of spans) {
    const shared = Math.min(toMin, endMin) - Math.max(fromMin, startMin)
    if (shared > 0) extra += ((pricePerKwh - basePricePerKwh) * shared) / (toMin - fromMin)
  }
  return basePricePerKwh + extra
}

/**
 * Shares of full power that a firing draws on average, where nothing but the nameplate is known.
 * @see a consultant's rule: candling 0.15, bisque 0.50, glaze 0.65; others 0.50-0.60
 */
export const usualDuty = { candling: 0.15, bisque: 0.5, glaze: 0.65 } as const

/** Energy by the nameplate alone. @param parts power, hours and share of full power of each part of the firing */
export const energyByDutyKwh = (
  parts: readonly { readonly powerKw: number; readonly hours: number; readonly dutyRatio: number }[],
): number => parts.reduce((sum, { powerKw, hours, dutyRatio }) => sum + powerKw * hours * dutyRatio, 0)

/**
 * The loss factor that one meter reading teaches.
 * @param modelKwh the model's total with the factor that the kiln has now
 * @returns within 1.0-1.6: a reading outside is more likely a misreading than a kiln
 */
export const lossFactorFrom = (meteredKwh: number, modelKwh: number, kiln: KilnFiring): number =>
  Math.min(1.6, Math.max(1, (kiln.lossFactor * meteredKwh) / modelKwh))

/** Carbon dioxide of a firing. @param kgPerKwh of the studio's own supply: an input, it differs fourfold between grids */
export const carbonKg = (kwh: number, kgPerKwh: number): number => kwh * kgPerKwh

/** Heat of a fuel by its unit of sale. @see therm by definition; propane 91 000 BTU/gal and 47 668 BTU/kg as quoted by users */
export const fuelKwh = { therm: 29.3071, 'gallon of propane': 26.67, 'kg of propane': 13.97 } as const

/** How much fuel a gas kiln burns. @param burnerKw mean heat input over the hours */
export const fuelAmount = (burnerKw: number, hours: number, fuel: keyof typeof fuelKwh): number =>
  (burnerKw * hours) / fuelKwh[fuel]

/** A reason code, said only with "ask a licensed electrician". */
export type CircuitNote = {
  readonly code: 'circuit-at-least'
  readonly params: { readonly kilnA: number; readonly circuitA: number }
}

/** Ratings that breakers come in, up to what a studio has. @see NEC 240.6(A) */
const BREAKERS_A = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200] as const
const CONTINUOUS_LOAD = 1.25

/**
 * The smallest circuit for a kiln that draws this: the next breaker at 125 % of a continuous load.
 * @returns undefined above 160 A, where no table helps
 * @see NEC 424.3(B) as quoted by a supplier (W37)
 */
export function circuitNote(kilnA: number): CircuitNote | undefined {
  const circuitA = BREAKERS_A.find((breakerA) => breakerA >= kilnA * CONTINUOUS_LOAD)
  return circuitA === undefined ? undefined : { code: 'circuit-at-least', params: { kilnA, circuitA } }
}
