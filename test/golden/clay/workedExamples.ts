/**
 * Worked examples of clay. `published`: numbers printed by the source; `computed`: worked by hand from the inputs given. The W
 * numbers are used in docstrings.
 */

/** 2.000 kg plastic clay at 20 % water of the wet mass. Computed. */
export const w14 = { plasticKg: 2, wetBasisRatio: 0.2, moistureDb: 0.25, dryKg: 1.6 } as const

/** A measured porcelain bar: rcboisjoli.blogspot.com, 2 Apr 2011; percentages recomputed. */
export const w16 = {
  marks: { wetMm: 150, dryMm: 144, bisqueMm: 141, finishedMm: 133 },
  dryingPct: 4.0,
  bisquePct: 2.08,
  glazePct: 5.67,
  totalPct: 11.33,
} as const

/** Its author reports about 12.7 %: (150 - 133) / 133 = 12.78 % of the FIRED length. 20 cm fired is 22.56 cm wet, not 22.93. */
export const w17 = {
  ofFiredRatio: 17 / 133,
  ofWetPct: 11.33,
  firedMm: 200,
  wetMm: 225.56,
  mistakenWetMm: 229.3,
} as const

/** Dividing and multiplying. Computed; the 300 mm at 14 % is common practice's own example. */
export const traps = [
  { firedMm: 300, ratio: 0.12, wetMm: 340.91, mistakenMm: 336, firesToMm: 295.68 },
  { firedMm: 300, ratio: 0.14, wetMm: 348.84, mistakenMm: 342, firesToMm: 294.12 },
  { firedMm: 330, ratio: 0.12, wetMm: 375, mistakenMm: 369.6, firesToMm: 325.25 },
] as const

/** Stages of 5.5, 0.5 and 6.5 %, each on its own start. Computed. */
export const w19 = { ratios: [0.055, 0.005, 0.065], totalPct: 12.084, sumPct: 12.5 } as const

/** A supplier's total and drying shrinkage: amaranthstoneware.com; the third figure computed. */
export const w20 = { totalRatio: 0.155, dryingRatio: 0.08, glazePct: 8.15 } as const

export const w21 = { linearRatio: 0.12, volumePct: 31.85 } as const
export const w22 = { ratio: 0.12, firedMm: 10, divisionMm: 11.364 } as const

/** Computed with the formulas of ASTM C373. */
export const w23 = {
  weighings: { dryG: 100, saturatedG: 102.5, suspendedG: 58 },
  absorptionPct: 2.5,
  volumeCm3: 44.5,
  porosityPct: 5.618,
  bulkGCm3: 2.2472,
  apparent: 2.381,
} as const

/** 24 good pieces with losses of 5, 2 and 5 %: 24 / (0.95 * 0.98 * 0.95) = 27.14, so 28 on average. Computed. */
export const w39 = { good: 24, ratios: [0.05, 0.02, 0.05], exact: 27.14, start: 28 } as const

/** Published: FDA CPG 545.400 and 545.450. */
export const w40 = [
  { depthMm: 25, capacityL: 0.5, category: 'flatware', leadUgMl: 3, cadmiumUgMl: 0.5 },
  { depthMm: 25.1, capacityL: 1.09, category: 'small hollowware', leadUgMl: 2, cadmiumUgMl: 0.5 },
  { depthMm: 25.1, capacityL: 1.1, category: 'large hollowware', leadUgMl: 1, cadmiumUgMl: 0.25 },
] as const

/** Rule published: 84/500/EEC art. 2(5); example computed. Category 1 lead, mg/dm²: 0.8, and 1.2 at the most. */
export const w41 = { limit: 0.8, result: 1.1, others: [0.6, 0.7, 0.9] } as const

/** Measured by suppliers and potters: total and drying shrinkage in % of the wet length. */
export const bodies = [
  { name: 'grogless fireclay body', cone: '6', totalPct: 15.5, dryingPct: 8, source: 'amaranthstoneware.com' },
  {
    name: 'porcelain casting slip',
    cone: '6',
    totalPct: 11.33,
    dryingPct: 4,
    source: 'rcboisjoli.blogspot.com (measured bar)',
  },
] as const
