import type { Air } from '#core/air/types.ts'
import { defaultClay } from '#core/drying/clay.ts'
import { ROWS_PER_DB, type ClayTable } from '#core/drying/clayTable.ts'
import { middleDraw, priorBeliefs } from '#core/drying/draws.ts'
import { CELL_COUNT, freshSlab, type Slab, type Surroundings } from '#core/drying/slab.ts'
import type { AirOfSpot, CoverKind, CoverRegime, CoverSpan, Draw, PartClass } from '#core/drying/types.ts'

/** The draw in which everything is as believed of the default clay. */
export const usualDraw: Draw = middleDraw(priorBeliefs(defaultClay))

export const aPart = (but: Partial<PartClass> = {}): PartClass => ({ thicknessMm: 6.35, board: 'sealed', ...but })

/** Air that never changes: 20 °C, 50 %, still. */
export const steadyAir =
  (but: Partial<Air> = {}): AirOfSpot =>
  () =>
  () => ({ tempC: 20, rh: 0.5, airSpeedMS: 0.1, ...but })

/** Air of a room over days: warmer and drier in the afternoon, and a slower wave of weather. */
export const roomAir =
  (but: { readonly rh?: number; readonly tempC?: number } = {}): AirOfSpot =>
  () =>
  (minute) => {
    const day = Math.sin((2 * Math.PI * minute) / 1440)
    const weather = Math.sin((2 * Math.PI * minute) / 7300)
    return {
      tempC: (but.tempC ?? 19) + 2.5 * day + weather,
      rh: Math.min(0.99, Math.max(0.05, (but.rh ?? 0.5) - 0.08 * day + 0.06 * weather)),
      airSpeedMS: 0.1,
    }
  }

export const spans = (...list: readonly (readonly [fromMin: number, cover: CoverKind])[]): CoverSpan[] =>
  list.map(([fromMin, cover]) => ({ fromMin, cover, spotId: 'rack' }))

/** A regime whose covers change so long after the cut. */
export const aRegime = (...list: readonly (readonly [afterMin: number, cover: CoverKind])[]): CoverRegime => ({
  id: list.map(([afterMin, cover]) => `${cover}@${afterMin}`).join(' '),
  spansFrom: (cutMin) => list.map(([afterMin, cover]) => ({ fromMin: cutMin + afterMin, cover, spotId: 'rack' })),
})

/** How a made-up material dries, for checks against solutions that know neither shrinkage nor Oswin. */
export type Material = {
  readonly dryMassKgM2: number
  readonly startDb: number
  /** Diffusivity over specific volume squared, kg2/(m4 s). */
  readonly liquid: number
  /** Activity of the face by moisture. */
  readonly activity: (moistureDb: number) => number
}

/** A slab of a made-up material; lengths stay, vapour does not move inside. */
export function aSlabOf({ dryMassKgM2, startDb, liquid, activity }: Material): Slab {
  const slab = freshSlab(1, usualDraw, 20)
  const rows = slab.clay.length.length
  const clay: ClayTable = {
    ...slab.clay,
    liquid: new Float64Array(rows).fill(liquid),
    vapour: new Float64Array(rows),
    carried: Float64Array.from({ length: rows }, (_, row) => (liquid * row) / ROWS_PER_DB),
    carriedAsVapour: new Float64Array(rows),
    length: new Float64Array(rows).fill(1),
    activity: Float64Array.from({ length: rows }, (_, row) => activity(row / ROWS_PER_DB)),
  }
  const cellMass = slab.cellMass.map((mass) => (mass / slab.dryMassKgM2) * dryMassKgM2)
  return { ...slab, clay, dryMassKgM2, cellMass, moisture: new Float64Array(CELL_COUNT).fill(startDb) }
}

/** Surroundings that hold the temperature and take from the upper face alone. */
export const isothermal = (but: Partial<Surroundings> = {}): Surroundings => ({
  airTempC: 20,
  vapourPressurePa: 0,
  topKgM2SPa: 0,
  bottomKgM2SPa: 0,
  heatWM2K: 1e12,
  suctionKgM2S: 0,
  suctionCapacityKgM2: 0,
  ...but,
})
