import type { AirAt, OutlookDraw } from '#core/air/types.ts'
import type { Minute } from '../time.ts'

/** Firmness from wet to dry; what lies before `soft` has no word. A word holds from its threshold down to the next. */
export type Firmness = 'soft' | 'leather hard' | 'firm' | 'chalky' | 'bone dry'

/** How ware waits. `damp cupboard` is not a sheet but a room of its own with air near saturation. */
export type CoverKind = 'open' | 'cloth' | 'loose' | 'tucked' | 'sealed' | 'damp cupboard'

/** What the ware lies on: a sealed board closes the lower face, a rack lets it breathe, plasterboard sucks. */
export type BoardKind = 'sealed' | 'rack' | 'absorbent' | 'standing'

/**
 * A value and how far it may stray; `spread` is a standard deviation. `kind` 'plus': by adding, normal; 'times': by a
 * factor, its logarithm normal; 'evenly': by a factor of which only the range is known, its logarithm anywhere in it.
 */
export type Uncertain = { readonly value: number; readonly spread: number; readonly kind: 'plus' | 'times' | 'evenly' }

/**
 * A clay body's drying. Moistures are on a dry basis (kg water / kg dry clay).
 * Defaults, ranges and their basis: `defaultClay` in `clay.ts`.
 */
export type ClayDrying = {
  /** Moisture as bagged. */
  readonly startMoistureDb: Uncertain
  /** Moisture at which shrinkage ends; follows from the body's drying shrinkage (`endOfShrinkageDb`). */
  readonly endOfShrinkageDb: Uncertain
  /** Oswin isotherm X = A (a / (1 - a))^B. */
  readonly oswinA: Uncertain
  readonly oswinB: Uncertain
  /** Liquid diffusivity at the start moisture and 20 °C. */
  readonly wetDiffusivityM2S: Uncertain
  /** k of D = D_wet exp(-k (1 - X / X0)). */
  readonly diffusivityFall: Uncertain
  /** Vapour permeability of the dry clay, kg/(m s Pa). */
  readonly vapourPermeability: Uncertain
  /** By how much more vapour a rim gives off per area than the middle. */
  readonly rimFactor: Uncertain
  /** How far the hand's judgement of a firmness lies from its nominal moisture (same shift for all words). */
  readonly feelShiftDb: Uncertain
}

/**
 * A part of a piece as far as drying cares. Parts with equal fields dry alike and share their tables.
 * @see PartState for where one is at a given moment
 */
export type PartClass = {
  /** Wet thickness as cut. */
  readonly thicknessMm: number
  readonly board: BoardKind
  /** The thickest spot (seam fillet, foot, rolled rim), if thicker than the rest: it alone decides when ware is dry. */
  readonly thickestMm?: number
  /** Present if the edge stays (is not cut away at truing): it dries first. A strip over the rim adds its permeance. */
  readonly rim?: { readonly widthMm: number; readonly strip?: CoverKind }
  /** Standing as a box or pan, its inner faces see this share of the free film until the top opens (flat part: 1). */
  readonly innerFaceShare?: number
  /** A frame of bars this wide. With its middle in until joining it dries like a part of a bigger slab. */
  readonly frame?: { readonly barWidthMm: number; readonly middleIn: boolean }
  /** Size along the air stream; 300 mm unless named. */
  readonly lengthMm?: number
}

/** From `fromMin` on, ware waits under `cover` at `spotId`, until the next span begins. */
export type CoverSpan = {
  readonly fromMin: Minute
  readonly cover: CoverKind
  readonly spotId: string
  /** The spot's board differs from the part's own (a move to a rack, a turning onto plasterboard). */
  readonly board?: BoardKind
  /** A lid, or the board a box stands on its head upon, is off: inner faces see the room from here on. */
  readonly topOpen?: boolean
  /** Ware is turned over at `fromMin`: the face that lay below now dries. */
  readonly turned?: boolean
  /** Water given at `fromMin`, kg per m2 of the free face (wet cloth, sponge, slip): only before ware pales. */
  readonly dampenedKgM2?: number
}

/** A way of covering a run, as spans in rising order of which the first begins at `cutMin`. */
export type CoverRegime = {
  readonly id: string
  readonly spansFrom: (cutMin: Minute) => readonly CoverSpan[]
  /** Absent: covers change as written, however the clay turns out. */
  readonly recourse?: Recourse
}

/** What somebody who looks in does when the clay turns out faster or slower than planned. */
export type Recourse = {
  /** When somebody looks in, rising. */
  readonly lookInsFrom: (cutMin: Minute) => readonly Minute[]
  /** The step (index of its band) that the ware is kept for; later steps are read as if it stayed parked. */
  readonly forBand: number
  /** Ware found ready for that step is parked under this. */
  readonly park: CoverKind
  /** Ware found not ready at a look-in this long after its cut, or later, is given this barer cover. */
  readonly hurry?: { readonly afterMin: number; readonly cover: CoverKind }
}

/** One joint draw of all that is uncertain; the same draw serves every part, step, run and question. */
export type Draw = {
  readonly index: number
  /** Moisture of this lot of clay as cut. */
  readonly startMoistureDb: number
  /** The body's usual moisture as bagged, against which firmness and diffusivity are reckoned. */
  readonly bodyMoistureDb: number
  readonly endOfShrinkageDb: number
  readonly oswinA: number
  readonly oswinB: number
  readonly wetDiffusivityM2S: number
  readonly diffusivityFall: number
  readonly vapourPermeability: number
  readonly rimFactor: number
  readonly feelShiftDb: number
  readonly thicknessFactor: number
  /** k_air by spot; a spot not named takes `airFactor`. */
  readonly airFactor: number
  readonly airFactorBySpot: Readonly<Record<string, number>>
  /** Permeance by cover, kg/(m2 s Pa); infinite when open. */
  readonly permeance: Readonly<Record<CoverKind, number>>
  /** Share of the free face's film that the underside sees on a rack. */
  readonly rackShare: number
  readonly absorbentKgM2H: number
  readonly absorbentCapacityKgM2: number
  readonly cupboardRh: number
  readonly outlook: OutlookDraw
}

/** The air of a spot in one draw. Asked hour by hour, never more than once per hour and draw by the fast path. */
export type AirOfSpot = (spotId: string, draw: Draw) => AirAt

/** A zone of a part at one moment: moisture cell by cell from the free face down. */
export type ZoneState = {
  readonly cellsDb: readonly number[]
  readonly tempC: number
  /** What the absorbent board below has taken up so far. */
  readonly boardKgM2: number
}

/** Where a part is at `minute` in one draw. A part has a rim or a thickest spot of its own only if its class has. */
export type PartState = {
  readonly minute: Minute
  readonly middle: ZoneState
  readonly rim?: ZoneState
  readonly thickest?: ZoneState
}

/** One part in one draw over time, at whole minutes in rising order. Moistures on a dry basis. */
export type Trajectory = {
  readonly minute: readonly number[]
  readonly meanDb: readonly number[]
  /** The rim's mean; equals `meanDb` for a part without rim. */
  readonly rimDb: readonly number[]
  /** Mean of the thickest spot; equals `meanDb` when nothing is thicker. */
  readonly thickestDb: readonly number[]
  /** The wettest cell of the thickest spot: it decides whether ware is dry. */
  readonly wettestDb: readonly number[]
  /** Free face. */
  readonly surfaceDb: readonly number[]
  /** Driest cell anywhere. */
  readonly driestDb: readonly number[]
  readonly tempC: readonly number[]
  /** Water given off by the middle since the start, kg/m2 of face as cut. */
  readonly givenOffKgM2: readonly number[]
  readonly end: PartState
}

/** What a step asks of the clay: no wetter than `from`, no drier than `to`. */
export type StepBand = {
  readonly from: Firmness | 'any'
  readonly to: Firmness | 'any'
  /** How far a rim may go; `chalky` unless named: until it pales, scoring and slip bring a rim back. */
  readonly rimTo?: Firmness | 'any'
  /** Parts that are joined may differ by no more than this; unlimited unless named. */
  readonly maxDifferenceDb?: number
}

/** Which part ended a window, and by what. */
export type Binding = {
  readonly part: number
  readonly by: 'too soft' | 'too dry' | 'rim too dry' | 'parts differ' | 'horizon'
}

/**
 * The windows of one step of a run for many cut times, draw by draw; in each draw the step can be done from open up to
 * close. An empty window has close < open; a window that does not open within the horizon has open = Infinity.
 */
export type WindowTable = {
  readonly cutMin: readonly Minute[]
  /** [cut][draw] */
  readonly openMin: readonly (readonly number[])[]
  /** [cut][draw] */
  readonly closeMin: readonly (readonly number[])[]
  /** [cut]: what ends the window in most draws. */
  readonly opens: readonly Binding[]
  readonly closes: readonly Binding[]
}

/** Why there is no span at the odds asked for: which part ends it, and what it is. */
export type NoSpan = {
  readonly empty: true
  readonly part: number
  readonly why: { readonly code: NoSpanCode; readonly params: Readonly<Record<string, number | string>> }
}
export type NoSpanCode =
  | 'closes-before-it-opens'
  | 'odds-too-thin'
  | 'never-firm-enough'
  | 'too-few-draws'
  | 'not-in-table'

/** The longest span that holds at both ends together at the odds asked for. Half open, whole minutes. */
export type Span = {
  readonly empty: false
  readonly startMin: Minute
  readonly endMin: Minute
  readonly binding: Binding
}
