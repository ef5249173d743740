import { type Cone, compareCones, isCone } from '#core/firing/cones.ts'
import { DOUBTFUL_BELOW_ODDS } from '#core/firing/candling.ts'
import type { FiringKind } from '#core/firing/types.ts'

/** What to beware of; `src/words` says it, with its source. */
export type CautionCode =
  | 'silica-dust'
  | 'sanding-dust'
  | 'kiln-fumes'
  | 'carbon-monoxide'
  | 'clearance-to-walls'
  | 'nothing-that-burns-near'
  | 'own-circuit'
  | 'opening-hot'
  | 'cool-wide-flats-slowly'
  | 'damp-ware-bursts'
  | 'cone-leading-zero'
  | 'outside-clay-range'
  | 'leach-test'
  | 'metals-in-liner'
  | 'crazed-food-ware'
  | 'oven-ware-care'
  | 'oven-ware-test'
  | 'eyes-at-peephole'
  | 'cone-is-estimate'
  | 'be-there-at-shut-off'
  | 'plaster-crumbs'
  | 'frost'

/** What is being done, and to what. All optional: say only what is known. */
export type Circumstances = {
  readonly doing?:
    | 'dry clay'
    | 'sanding'
    | 'plaster'
    | 'setting up a kiln'
    | 'firing'
    | 'looking in'
    | 'opening'
    | 'selling'
  readonly firing?: FiringKind
  /** The cone that the firing goes to, and the range that the body allows. */
  readonly cone?: string
  readonly clayConeLow?: string
  readonly clayConeHigh?: string
  readonly oddsDry?: number
  readonly isWideFlat?: boolean
  readonly isForFood?: boolean
  readonly isForOven?: boolean
  readonly isForOutdoors?: boolean
  readonly isCrazed?: boolean
  /** Bright stains, or a glaze whose recipe nobody knows. */
  readonly glazeIsDoubtful?: boolean
  /** Barium, lithium, manganese, copper, chrome or nickel in the glaze that touches food. */
  readonly glazeHasMetals?: boolean
  /** The glaze was leach-tested on this body and firing. */
  readonly glazeIsTested?: boolean
}

/** The cautions that apply, in the order of their list. A firing always has some: somebody is there when it shuts off. */
export const cautionsFor = (circumstances: Circumstances): CautionCode[] =>
  cautions.filter(({ applies }) => applies(circumstances)).map(({ code }) => code)

/**
 * Every caution with where it applies and whence it comes. Clearances and circuits always go with "follow the kiln's
 * manual, local codes and a licensed electrician or gas fitter".
 */
export const cautions: readonly {
  readonly code: CautionCode
  readonly source: string
  readonly applies: (circumstances: Circumstances) => boolean
}[] = [
  {
    code: 'silica-dust',
    source: 'OSHA 29 CFR 1910.1053',
    applies: ({ doing }) => doing === 'dry clay' || doing === 'sanding',
  },
  {
    code: 'sanding-dust',
    source: 'university safety offices; common practice',
    applies: ({ doing }) => doing === 'sanding',
  },
  { code: 'plaster-crumbs', source: 'common practice, no source', applies: ({ doing }) => doing === 'plaster' },
  {
    code: 'clearance-to-walls',
    source: 'makers ask 12-18 in; local code',
    applies: ({ doing }) => doing === 'setting up a kiln',
  },
  {
    code: 'own-circuit',
    source: 'NEC 424.3(B) as quoted by a supplier',
    applies: ({ doing }) => doing === 'setting up a kiln',
  },
  {
    code: 'nothing-that-burns-near',
    source: 'a test: wall at 160 °F, 12 in from a kiln side at 280 °F',
    applies: ({ doing }) => doing === 'setting up a kiln' || doing === 'firing',
  },
  { code: 'kiln-fumes', source: 'Hirtle et al. 1998; US EPA', applies: ({ doing }) => doing === 'firing' },
  {
    code: 'carbon-monoxide',
    source: 'limits from memory',
    applies: ({ doing, firing }) => doing === 'firing' && firing === 'bisque',
  },
  { code: 'be-there-at-shut-off', source: 'common practice, no source', applies: ({ doing }) => doing === 'firing' },
  { code: 'cone-is-estimate', source: 'the cone maker’s guidance', applies: ({ doing }) => doing === 'firing' },
  { code: 'eyes-at-peephole', source: 'potters’ safety pages', applies: ({ doing }) => doing === 'looking in' },
  { code: 'opening-hot', source: 'a kiln maker’s page: 200 °F', applies: ({ doing }) => doing === 'opening' },
  {
    code: 'cool-wide-flats-slowly',
    source: 'Fraser 1986; Dodd & Murfin 1994; Fortuna 2000',
    applies: ({ doing, isWideFlat }) => (doing === 'firing' || doing === 'opening') && isWideFlat === true,
  },
  {
    code: 'damp-ware-bursts',
    source: 'common practice',
    applies: ({ firing, oddsDry = 1 }) => firing === 'bisque' && oddsDry < DOUBTFUL_BELOW_ODDS,
  },
  { code: 'outside-clay-range', source: 'clay suppliers’ pages', applies: isOutsideClayRange },
  { code: 'cone-leading-zero', source: 'the cone table: 05 and 5 are 155 °C apart', applies: mayLackLeadingZero },
  {
    code: 'leach-test',
    source: 'FDA CPG 545.400/.450; ISO 6486',
    applies: ({ isForFood, glazeIsDoubtful, glazeIsTested }) =>
      isForFood === true && (glazeIsDoubtful === true || glazeIsTested === false),
  },
  {
    code: 'metals-in-liner',
    source: 'M. Rossol, Clay Times 1996',
    applies: ({ isForFood, glazeHasMetals }) => isForFood === true && glazeHasMetals === true,
  },
  {
    code: 'crazed-food-ware',
    source: 'common practice',
    applies: ({ isForFood, isForOven, isCrazed }) => isCrazed === true && (isForFood === true || isForOven === true),
  },
  { code: 'oven-ware-care', source: 'care pages of six potters', applies: ({ isForOven }) => isForOven === true },
  {
    code: 'oven-ware-test',
    source: 'ASTM C554; EN 1183',
    applies: ({ doing, isForOven }) => doing === 'selling' && isForOven === true,
  },
  { code: 'frost', source: 'common practice, no source', applies: ({ isForOutdoors }) => isForOutdoors === true },
]

function isOutsideClayRange({ firing, cone, clayConeLow, clayConeHigh }: Circumstances): boolean {
  // Bisque is meant to stay below maturity.
  if (firing === 'bisque' || !cone || !isCone(cone)) return false
  const low = clayConeLow && isCone(clayConeLow) && compareCones(cone, clayConeLow) < 0
  return Boolean(low) || isAbove(cone, clayConeHigh)
}

/** Outside the clay's range as written, inside it with the zero added or taken away. */
function mayLackLeadingZero(circumstances: Circumstances): boolean {
  const { cone } = circumstances
  if (!cone || !(isOutsideClayRange(circumstances) || isAbove(cone, circumstances.clayConeHigh))) return false
  const other = cone.startsWith('0') ? cone.slice(1) : `0${cone}`
  return (
    isCone(other) &&
    !isOutsideClayRange({ ...circumstances, cone: other }) &&
    !isAbove(other, circumstances.clayConeHigh)
  )
}

const isAbove = (cone: string, clayConeHigh: string | undefined): boolean =>
  clayConeHigh !== undefined && isCone(cone) && isCone(clayConeHigh) && compareCones(cone as Cone, clayConeHigh) > 0
