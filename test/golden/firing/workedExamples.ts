/**
 * Worked examples of firing. `published`: the numbers are printed by the source; `computed`: worked by hand or by a separate
 * program from the inputs given. The W numbers are used in docstrings.
 */
export const w01to04 = {
  source: 'Orton, Temperature Equivalents 022-14 (2016 sheet), published; 15 °C/h of cone 10 by a retailer copy',
  cells: [
    { cone: '6', rateCPerH: 60, tempC: 1222, tempF: 2232 },
    { cone: '6', rateCPerH: 150, tempC: 1243, tempF: 2269 },
    { cone: '04', rateCPerH: 60, tempC: 1063, tempF: 1945 },
    { cone: '10', rateCPerH: 15, tempC: 1251, tempF: 2284 },
    { cone: '10', rateCPerH: 60, tempC: 1285, tempF: 2345 },
    { cone: '10', rateCPerH: 150, tempC: 1305, tempF: 2381 },
  ],
} as const

export const w05 = { source: 'definition', rising: ['022', '010', '06', '04', '01', '1', '5', '6', '10'] } as const

/** 1222 + 21 ln(100/60) / ln(150/60) = 1233.71. Computed. */
export const w06 = { cone: '6', rateCPerH: 100, tempC: 1233.7, toleranceC: 0.2 } as const

/** The unanchored fit of cone 6, whose 60 °C/h peak is 1.7 °C under the sheet. Computed by a separate program. */
export const w07 = {
  work: { energyKjPerMol: 702.6, lnWorkH: -57.4413 },
  rateCPerH: 60,
  peakC: 1220.3,
  toleranceC: 0.5,
} as const

/** Drop of the peak at 60 °C/h by the length of the hold. Computed by a separate program. */
export const w08w09 = {
  toleranceC: 0.3,
  drops: [
    { cone: '6', holdMin: 10, dropC: 8.5 },
    { cone: '6', holdMin: 30, dropC: 19.9 },
    { cone: '6', holdMin: 60, dropC: 31.0 },
    { cone: '06', holdMin: 10, dropC: 7.6 },
    { cone: '06', holdMin: 30, dropC: 16.0 },
    { cone: '06', holdMin: 60, dropC: 23.2 },
  ],
} as const

/** Soaking at cone temperature: 1-2 h drops the next cone, 4-6 h two. Published: the cone maker's text by a retailer. */
export const w10 = { oneConeH: [1, 2], twoConesH: [4, 6] } as const

/** Hesselberth & Roy, Mastering Cone 6 Glazes (2002), in °F and °F/h from 68 °F; hours computed on the published schedule. */
export const w11 = {
  startF: 68,
  ramps: [
    { rateFPerH: 100, targetF: 220, holdMin: 0 },
    { rateFPerH: 350, targetF: 2000, holdMin: 0 },
    { rateFPerH: 150, targetF: 2190, holdMin: 10 },
  ],
  hours: 8.04,
  toleranceH: 0.02,
} as const

/** Computed: 70/80 + 2 + 160/80 + 350/110 + 300/110 + 98/60 h. */
export const w12 = {
  startC: 20,
  segments: [
    { rateCPerH: 80, targetC: 90, holdMin: 120 },
    { rateCPerH: 80, targetC: 250, holdMin: 0 },
    { rateCPerH: 110, targetC: 600, holdMin: 0 },
    { rateCPerH: 110, targetC: 900, holdMin: 0 },
    { rateCPerH: 60, targetC: 998, holdMin: 0 },
  ],
  hours: 12.42,
  toleranceH: 0.02,
} as const

/** Water in 1 kg of pure Al2Si2O5(OH)4, and the heat of 1 kg water from 20 °C to steam. Computed. */
export const w13w15 = { kaoliniteWaterKg: 0.13957, steamKj: 2592 } as const

/** Energy by the nameplate, and money by the meter. Published; links are to the pages that print them. */
export const w24to28 = {
  w24: {
    source: 'lakesidepottery.com',
    parts: [
      { powerKw: 11.52, hours: 7, dutyRatio: 0.15 },
      { powerKw: 11.52, hours: 9, dutyRatio: 0.5 },
    ],
    kwh: 63.94,
  },
  w25: {
    source: 'skutt.com FAQ (prints $8.45)',
    parts: [{ powerKw: 16.64, hours: 8.47, dutyRatio: 0.5 }],
    kwh: 70.47,
    pricePerKwh: 0.12,
    cost: 8.46,
  },
  w26: {
    source: 'paragonweb.com pointer 165',
    parts: [{ powerKw: 10.8, hours: 5, dutyRatio: 1 }],
    kwh: 54,
    pricePerKwh: 0.09,
    cost: 4.86,
  },
  w27: {
    source: 'bigceramicstore.com tip 16',
    parts: [{ powerKw: 11.52, hours: 8, dutyRatio: 1 }],
    kwh: 92.16,
    pricePerKwh: 0.09,
    cost: 8.29,
  },
} as const

/** BTU for a dollar of propane at $1.10/gal and of electricity at $0.11/kWh. Published: potters.org/subject02812 (1997). */
export const w29 = {
  btuPerKwh: 1 / 0.000293,
  kwhPrice: 0.11,
  gallonPrice: 1.1,
  electricBtu: 31_027,
  propaneBtu: 82_727,
} as const

/** A 9 ft³ gas kiln at 16 000 BTU/ft³ an hour for 6-8 h; published without "an hour", corrected by hand. Forum topic 4487. */
export const w30 = { burnerBtuPerH: 9 * 16_000, hours: [6, 8], propaneKg: [18.1, 24.2], toleranceKg: 0.1 } as const

/** therm/t of UK tableware to kWh/kg. UK Energy Consumption Guide 8 (1990); kWh computed. */
export const w31 = { thermPerTonne: [24, 518, 251, 807], kwhPerKg: [0.703, 15.18, 7.36, 23.65] } as const

/** Energy balances worked by a separate program; duty against a published 0.65 for glaze. */
export const w32 = {
  kiln: { powerKw: 11.52, brickKg: 92, wallLossWPerK: 4.078, ambientC: 20 },
  load: { wareKg: 25, furnitureKg: 20, waterKg: 0.5, kaoliniteRatio: 0 },
  segments: [
    { rateCPerH: 100, targetC: 120, holdMin: 0 },
    { rateCPerH: 200, targetC: 1110, holdMin: 0 },
    { rateCPerH: 80, targetC: 1214, holdMin: 15 },
  ],
  kwh: { ware: 9.12, furniture: 7.3, brick: 17.62, wall: 19.49, water: 0.36, dehydroxylation: 0, total: 53.9 },
  dutyRatio: 0.624,
  toleranceKwh: 0.1,
} as const

/** The same kiln, bisque by W12. */
export const w33 = {
  load: { wareKg: 30, furnitureKg: 20, waterKg: 0.6, kaoliniteRatio: 0.45 },
  kwh: { ware: 8.97, furniture: 5.98, brick: 14.43, wall: 21.48, water: 0.43, dehydroxylation: 2.25, total: 53.5 },
  dutyRatio: 0.374,
} as const

/** Specific heat of dehydroxylated kaolin, T in K, J/kg/K. Clay Minerals (2011), abstract; 1194 at 1000 K (W34). */
export const kaolinSpecificHeat = (tempK: number): number => 1128 + 0.102 * tempK - 36e6 / tempK ** 2

/** 999 > 65.56 °C (150 °F) in 24 h at 22 °C: potters.org/subject11740, tau computed. And computed: tau 7 h, 1222 > 95 °C, 19.6 h. */
export const w35 = { fromC: 999, toC: 65.56, hours: 24, ambientC: 22, tauH: 7.72, toleranceH: 0.02 } as const
export const w36 = { tauH: 7, fromC: 1222, toC: 95, ambientC: 22, hours: 19.6, toleranceH: 0.05 } as const

/** Amperes of a kiln and of its circuit. Published table: seattlepotterysupply.com, quoting NEC 424.3(B). */
export const w37 = [
  [48, 60],
  [40, 50],
  [24, 30],
  [16, 20],
  [80, 100],
] as const

/** 53.9 kWh at the US mean of 2023 (EIA FAQ 74: 0.81 lb/kWh = 0.367 kg/kWh). Computed. */
export const w43 = { kwh: 53.9, kgPerKwh: 0.367, carbonKg: 19.8 } as const
