import { coneTable } from './coneTable.ts'

/** A cone by its number; the leading zero counts: 05 and 5 are about 155 °C apart. */
export type Cone = (typeof coneTable)[number][0]

/** How the witness cone stands. Each kind has its own temperatures. */
export type ConeType = 'self-supporting' | 'large' | 'small'

/** All cones in rising order of heat work: 022 first, 14 last. */
export const cones: readonly Cone[] = coneTable.map((row) => row[0])

/** Narrows a text as typed ("06", "5 1/2") to a cone; "6" and "06" are two cones. */
export const isCone = (text: string): text is Cone => cones.includes(text as Cone)

/** Negative when `a` asks for less heat work than `b`, 0 when they are one cone. For sorting. */
export const compareCones = (a: Cone, b: Cone): number => cones.indexOf(a) - cones.indexOf(b)

/**
 * Where a cone goes down, by its maker's sheet: straight in the logarithm of the rate between the sheet's rates. A cone
 * has no temperature without a rate and a type: 1222 °C is cone 6 at 60 °C/h self-supporting, and at 150 °C/h on an older
 * chart of large cones.
 * @param rateCPerH over the last 100 °C, more than 0; the sheet covers 15-150 (large 60-150, small 300 alone). Outside
 * that the nearest published rate is used, so that nothing is invented.
 * @returns undefined where the sheet has no value (small cones from 13, large 022-020, 5 1/2 and 14)
 * @throws RangeError for a rate of 0 or less
 * @see `coneTable` for the source; W06 for the interpolation
 */
export function coneTemperatureC(cone: Cone, rateCPerH: number, coneType: ConeType): number | undefined {
  if (!(rateCPerH > 0)) throw new RangeError('a cone goes down only on a rising temperature')
  const columns = columnsOf(cone, coneType)
  const upper = columns.findIndex((column) => column.rateCPerH >= rateCPerH)
  const above = columns[upper]
  const below = columns[upper - 1]
  if (!above) return columns.at(-1)?.tempC
  if (!below) return above.tempC
  const share = Math.log(rateCPerH / below.rateCPerH) / Math.log(above.rateCPerH / below.rateCPerH)
  return below.tempC + share * (above.tempC - below.tempC)
}

/** Whether the cells of a self-supporting cone around this rate stand in an independent copy of the sheet, or in memory alone. */
export function coneBasis(cone: Cone, rateCPerH: number): 'confirmed' | 'from memory' {
  const row = rowOf(cone)
  const marks = rateCPerH < 60 ? [row[9], row[10]] : [row[9]]
  return marks.includes('M') ? 'from memory' : 'confirmed'
}

/** The two numbers of a cone's heat work. @see `coneTable` */
export type ConeWork = { readonly energyKjPerMol: number; readonly lnWorkH: number }

export function coneWorkOf(cone: Cone): ConeWork {
  const row = rowOf(cone)
  return { energyKjPerMol: row[7], lnWorkH: row[8] }
}

const rowOf = (cone: Cone) => coneTable.find((row) => row[0] === cone)!

function columnsOf(cone: Cone, coneType: ConeType): { rateCPerH: number; tempC: number }[] {
  const [, self15, self60, self150, large60, large150, small300] = rowOf(cone)
  const cells: Record<ConeType, [number, number | undefined][]> = {
    'self-supporting': [
      [15, self15],
      [60, self60],
      [150, self150],
    ],
    large: [
      [60, large60],
      [150, large150],
    ],
    small: [[300, small300]],
  }
  return cells[coneType].flatMap(([rateCPerH, tempC]) => (tempC === undefined ? [] : [{ rateCPerH, tempC }]))
}
