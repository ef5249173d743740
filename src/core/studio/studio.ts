/**
 * What a studio has and wants, as set down by the potter: people, places, clay, kilns, designs, orders. What happened is
 * the logbook's; what is to happen is the plan's. Calendars arrive here as minutes (`src/app/calendar` made them so).
 */
import type { AirReading, SpotAir } from '#core/air/types.ts'
import type { ClayShrinkage, LossRates } from '#core/clay/types.ts'
import type { BoardKind, ClayDrying, CoverKind, StepBand } from '#core/drying/types.ts'
import type { FiringKind, FiringSchedule, KilnFiring } from '#core/firing/types.ts'
import type { KilnSpace, Stacking } from '#core/loading/types.ts'
import type { Interval, Minute } from '#core/time.ts'

/** Work of the hands; who may do which is a studio's own affair. `kiln` covers loading, watching and unloading. */
export type HandWork = 'slab' | 'join' | 'surface' | 'glaze' | 'kiln' | 'finish'
export const handWorks: readonly HandWork[] = ['slab', 'join', 'surface', 'glaze', 'kiln', 'finish']

export type Maker = {
  readonly id: string
  readonly name: string
  readonly skills: readonly HandWork[]
  /** Making hours: hands on clay. Disjoint, rising. */
  readonly makingHours: readonly Interval[]
  /** Times at which this maker can feel, open or close a cover (2-5 min); making hours count too and are included. */
  readonly lookInHours: readonly Interval[]
  /** At home and awake, able to mind a kiln; making hours count too and are included. */
  readonly kilnWatchHours: readonly Interval[]
}

/** Where ware waits. Its room is counted in ware boards. */
export type Spot = {
  readonly id: string
  readonly name: string
  readonly boardCount: number
  readonly board: BoardKind
  readonly airSpeedMS: number
  readonly air: SpotAir
}

export type ClayBody = {
  readonly id: string
  readonly name: string
  readonly drying: ClayDrying
  readonly shrinkage: ClayShrinkage
  readonly coneLow: string
  readonly coneHigh: string
  /** Plastic clay on hand, kg, and what is to come. */
  readonly onHandKg: number
  readonly deliveries: readonly { readonly minute: Minute; readonly massKg: number }[]
}

export type Glaze = {
  readonly id: string
  readonly name: string
  readonly coneLow: string
  readonly coneHigh: string
  readonly foodSafeTested: boolean
  /** Glaze ready in the bucket, litres; null where nobody counts. */
  readonly onHandL: number | null
}

/** Kilns on one supply share its `kilnsAtOnce`. */
export type PowerSupply = { readonly id: string; readonly name: string; readonly kilnsAtOnce: number }

export type Kiln = {
  readonly id: string
  readonly name: string
  readonly supplyId: string
  readonly space: KilnSpace
  readonly firing: KilnFiring
  readonly fires: readonly FiringKind[]
  readonly loadMin: number
  readonly unloadMin: number
}

export type Mould = { readonly id: string; readonly name: string; readonly count: number }

/** One flat part of a piece. Sizes are finished sizes; the clay's shrinkage makes wet ones of them. */
export type DesignPart = {
  readonly id: string
  readonly name: string
  readonly countPerPiece: number
  readonly lengthMm: number
  readonly widthMm: number
  /** Wet thickness as rolled, mm. */
  readonly thicknessMm: number
  readonly templateState: 'fresh' | 'soft' | 'leather hard'
  /** Thin frames may keep their middle in until joining, so that they dry as slowly as the rest. */
  readonly middleStaysIn: boolean
}

export type StepKind = 'cut' | 'drape' | 'release' | 'join' | 'surface' | 'glaze' | 'finish' | 'pack'

/** One step of hands. Clay steps stand first, in their order; then glaze, finish, pack. */
export type DesignStep = {
  readonly id: string
  readonly kind: StepKind
  readonly name: string
  readonly needs: HandWork
  readonly setupMin: number
  readonly minPerPiece: number
  /** The firmness in which the clay must be; null where it does not matter (cut, glaze, finish, pack). */
  readonly band: StepBand | null
  /** Parts that must be in the band; empty means all of them. */
  readonly partIds: readonly string[]
  readonly mouldId: string | null
}

export type Design = {
  readonly id: string
  readonly name: string
  readonly clayId: string
  readonly outline: 'rectangle' | 'round' | 'oval'
  readonly lengthMm: number
  readonly widthMm: number
  readonly heightMm: number
  readonly cornerRadiusMm: number
  readonly parts: readonly DesignPart[]
  readonly steps: readonly DesignStep[]
  /** Least and most time sealed after the last join, hours. */
  readonly evenOutHours: { readonly least: number; readonly most: number }
  /** Hours under loose plastic after evening out, before the ware stands open. */
  readonly slowDryHours: number
  /** The thickest spot once built (seam fillet, foot, rolled rim), mm; it decides when the ware is dry. */
  readonly thickestMm: number
  readonly closedForm: boolean
  readonly piecesPerBoard: number
  readonly mostPerRun: number
  readonly bisqueScheduleId: string
  readonly glazeScheduleId: string
  readonly glazeIds: readonly string[]
  readonly glazePerPieceL: number
  readonly losses: LossRates
  readonly stacking: Stacking
  /** Whether it may turn freely on a shelf, or only by quarter turns. */
  readonly turnsFreely: boolean
}

export type OrderKind = 'customer' | 'market' | 'stock'

export type OrderLine = {
  readonly id: string
  readonly designId: string
  /** null: decided late, at the glaze bench. */
  readonly glazeId: string | null
  readonly count: number
}

export type Order = {
  readonly id: string
  readonly kind: OrderKind
  readonly name: string
  /** When it must be packed: the end of the day before it is due. */
  readonly packedByMin: Minute
  /** Relative importance, 1 = usual. */
  readonly weight: number
  /** Odds wanted for the date, 0.5 to 0.99. */
  readonly oddsWanted: number
  readonly lines: readonly OrderLine[]
}

/** Good ware on the shelf. `bisque` waits for a glaze and belongs to no order yet; `glazeId` is null for it. */
export type StockItem = {
  readonly id: string
  readonly designId: string
  readonly stage: 'bisque' | 'finished'
  readonly glazeId: string | null
  readonly count: number
}

/** What the potter has fixed: this step of this run starts then (and, if said, by that maker). */
export type Pin = {
  readonly id: string
  readonly runId: string
  readonly stepId: string
  readonly startMin: Minute
  readonly makerId: string | null
}

export type StudioRulesOfHouse = {
  /** Shortest session worth starting, minutes. */
  readonly leastSessionMin: number
  /** Minutes for one look-in. */
  readonly lookInMin: number
  /** Odds at which windows are held. */
  readonly windowOdds: number
  /** Hours that glazed ware dries before it is loaded. */
  readonly glazeDryHours: number
  /** Bisque and glaze in one load: a mid-fire studio says no. */
  readonly mixBisqueAndGlaze: boolean
  /** Wait to fill a kiln to this share of its shelves when dates allow. */
  readonly wantedFill: number
  /** Electricity, money per kWh, and its carbon, kg CO2 per kWh. */
  readonly pricePerKwh: number
  readonly co2KgPerKwh: number
  readonly altitudeM: number
}

export type Studio = {
  readonly id: string
  readonly name: string
  readonly rules: StudioRulesOfHouse
  readonly wareBoardCount: number
  readonly makers: readonly Maker[]
  readonly spots: readonly Spot[]
  readonly covers: readonly CoverKind[]
  readonly clays: readonly ClayBody[]
  readonly glazes: readonly Glaze[]
  readonly supplies: readonly PowerSupply[]
  readonly kilns: readonly Kiln[]
  readonly moulds: readonly Mould[]
  readonly firingSchedules: readonly FiringSchedule[]
  readonly designs: readonly Design[]
  readonly orders: readonly Order[]
  readonly stock: readonly StockItem[]
  readonly pins: readonly Pin[]
  readonly airReadings: readonly (AirReading & { readonly spotId: string })[]
}
