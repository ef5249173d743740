import type { Minute } from '../time.ts'
import { linearShrinkage } from './clay.ts'
import type { Draw, Trajectory } from './types.ts'
import { moistureAt } from './windows.ts'

export type CrackPlace = 'through the thickness' | 'rim against middle' | 'between partners'
export type CrackBand = 'low' | 'some' | 'high'
export type CrackRemedy = 'cover-closer' | 'strip-over-rim' | 'cover-the-drier-part'

/** The greatest difference in shrinkage that ware goes through at one place. */
export type CrackRisk = {
  readonly place: CrackPlace
  /** Difference of length, as share of the length as cut. */
  readonly strainRatio: number
  readonly atMin: Minute
  readonly band: CrackBand
  /** What keeps it down; null where the risk is low. */
  readonly remedy: CrackRemedy | null
}

/** Bands of strain: assumption, until a studio's own crack log says better. */
const SOME_FROM_RATIO = 0.005
const HIGH_FROM_RATIO = 0.01

const remedies: Readonly<Record<CrackPlace, CrackRemedy>> = {
  'through the thickness': 'cover-closer',
  'rim against middle': 'strip-over-rim',
  'between partners': 'cover-the-drier-part',
}

/**
 * Crack risk of a part, and against those it is joined to, worst place first. Strain is the difference in shrinkage
 * between the wetter and the drier side: 0.53 to 0.64 % of length per point of moisture while clay shrinks, none below.
 * @param partners parts joined to it, over the same time
 */
export function crackRisks(part: Trajectory, partners: readonly Trajectory[], draw: Draw): CrackRisk[] {
  const strain = (wetDb: number, dryDb: number): number => Math.abs(shrunk(dryDb, draw) - shrunk(wetDb, draw))
  const through = worst(part, (i) => strain(part.wettestDb[i]!, part.surfaceDb[i]!))
  const rim = worst(part, (i) => strain(part.meanDb[i]!, part.rimDb[i]!))
  const between = worst(part, (i) =>
    Math.max(
      0,
      ...partners.map(({ minute, meanDb }) => strain(moistureAt(minute, meanDb, part.minute[i]!), part.meanDb[i]!)),
    ),
  )
  const places: [CrackPlace, Peak][] = [
    ['through the thickness', through],
    ['rim against middle', rim],
    ['between partners', between],
  ]
  return places.map(([place, peak]) => riskOf(place, peak)).toSorted((a, b) => b.strainRatio - a.strainRatio)
}

const shrunk = (moistureDb: number, draw: Draw): number =>
  linearShrinkage(moistureDb, draw.startMoistureDb, draw.endOfShrinkageDb)

type Peak = { readonly strainRatio: number; readonly atMin: Minute }

function worst({ minute }: Trajectory, strainAt: (i: number) => number): Peak {
  let peak: Peak = { strainRatio: 0, atMin: minute[0]! }
  for (let i = 0; i < minute.length; i++) {
    const strainRatio = strainAt(i)
    if (strainRatio > peak.strainRatio) peak = { strainRatio, atMin: minute[i]! }
  }
  return peak
}

function riskOf(place: CrackPlace, { strainRatio, atMin }: Peak): CrackRisk {
  const band = strainRatio > HIGH_FROM_RATIO ? 'high' : strainRatio >= SOME_FROM_RATIO ? 'some' : 'low'
  return { place, strainRatio, atMin, band, remedy: band === 'low' ? null : remedies[place] }
}
