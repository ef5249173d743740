/** A design's pieces as they go into the kiln, and the clay that is in them. Facts that plan and check share. */
import { pieceMass } from '#core/clay/mass.ts'
import { sizeAt } from '#core/clay/shrinkage.ts'
import type { FiringKind, FiringLoad } from '#core/firing/types.ts'
import { circleFootprint, ovalFootprint, rectangleFootprint } from '#core/loading/footprint.ts'
import type { Footprint, KilnSpace, Load, LoadItem, Stacking } from '#core/loading/types.ts'
import type { ClayBody, Design, Kiln, Studio } from '#core/studio/studio.ts'
import type { FiringMember } from '../plan.ts'

/** Share of plain clay's dry mass that is kaolinite still to lose its water. Common practice, no source (see W33: 0.45). */
const KAOLINITE_RATIO = 0.45
/** Water left in ware that counts as dry, of its dry mass. Assumption, from the isotherm at 50 % humidity. */
const WATER_LEFT_RATIO = 0.02
/**
 * More ware than a cubic metre of chamber takes, so that no load is slower than was reckoned with.
 * @see load_rules.csv: about 45 kg in 0.28 m3 (a kiln maker's example) is 160
 */
const FULL_WARE_KG_PER_M3 = 240
/** Furniture that a cubic metre of chamber takes. @see kiln_sizes_generic.csv: 18-25 kg in 0.20 m3 */
const FURNITURE_KG_PER_M3 = 110

/** Of a studio, what sizes and masses hang on. */
type Clays = Pick<Studio, 'clays'>

export const clayOf = (studio: Clays, { clayId }: Design): ClayBody | undefined =>
  studio.clays.find(({ id }) => id === clayId)

/** Plastic and dry mass of one piece as cut. */
export function massOf(studio: Clays, design: Design): { readonly plasticKg: number; readonly dryKg: number } {
  const clay = clayOf(studio, design)
  if (!clay) return { plasticKg: 0, dryKg: 0 }
  const parts = design.parts.map(({ countPerPiece, lengthMm, widthMm, thicknessMm }) => {
    const wet = sizeAt({ lengthMm, widthMm, thicknessMm: 1 }, 'finished', 'fresh', clay.shrinkage)
    return { countPerPiece, wet: { ...wet, thicknessMm } }
  })
  return pieceMass(parts, clay.drying.startMoistureDb.value, design.outline === 'rectangle' ? 1 : Math.PI / 4)
}

export type SizeGoingIn = {
  readonly footprint: Footprint
  readonly heightMm: number
  readonly lengthMm: number
  readonly widthMm: number
  /** Share of its box that the outline takes; rounded corners are not counted off. */
  readonly outlineShare: number
  readonly massKg: number
  readonly stacking: Stacking
}

/** Outline, height and mass going in: dry for the bisque, bisque for the glaze firing. */
export function sizeGoingIn(studio: Clays, design: Design, kind: FiringKind): SizeGoingIn {
  const clay = clayOf(studio, design)
  const finished = { lengthMm: design.lengthMm, widthMm: design.widthMm, thicknessMm: design.heightMm }
  const stage = kind === 'bisque' ? 'dry' : 'bisque'
  const size = clay ? sizeAt(finished, 'finished', stage, clay.shrinkage) : finished
  const { lengthMm, widthMm, thicknessMm: heightMm } = size
  const corner = Math.min((design.cornerRadiusMm * lengthMm) / design.lengthMm, lengthMm / 2, widthMm / 2)
  const footprint =
    design.outline === 'round'
      ? circleFootprint(Math.max(lengthMm, widthMm))
      : design.outline === 'oval'
        ? ovalFootprint(lengthMm, widthMm)
        : rectangleFootprint(lengthMm, widthMm, corner)
  return {
    footprint,
    heightMm,
    lengthMm,
    widthMm,
    outlineShare: design.outline === 'rectangle' ? 1 : Math.PI / 4,
    massKg: massOf(studio, design).dryKg,
    stacking: design.stacking,
  }
}

/** One piece for the packer. @param number from 1 up; the key is the run, `#` and this number */
export function loadItem(
  studio: Clays,
  design: Design,
  kind: FiringKind,
  runId: string,
  number: number,
  mustGo: boolean,
): LoadItem {
  const { footprint, heightMm, massKg, stacking } = sizeGoingIn(studio, design, kind)
  return {
    key: `${runId}#${number}`,
    footprint,
    heightMm,
    massKg,
    mustGo,
    stacking,
    rotation: design.turnsFreely ? 'any' : 'quarter',
  }
}

/** What a kiln called full holds, as heat sees it: a firing with less is no longer. */
export function fullLoadOf({ space }: Pick<Kiln, 'space'>, kind: FiringKind): FiringLoad {
  const m3 = chamberMm3(space) / 1e9
  const shelvesKg = space.furniture.shelves.reduce((sum, { massKg, count }) => sum + massKg * count, 0)
  return heatOf(FULL_WARE_KG_PER_M3 * m3, Math.max(shelvesKg, FURNITURE_KG_PER_M3 * m3), kind)
}

/** What stands in a kiln, as heat sees it. */
export function firingLoadOf(
  studio: Clays & Pick<Studio, 'designs'>,
  { space }: Pick<Kiln, 'space'>,
  load: Load | null,
  members: readonly FiringMember[],
  kind: FiringKind,
): FiringLoad {
  const wareKg = members.reduce((sum, { designId, count }) => {
    const design = studio.designs.find(({ id }) => id === designId)
    return sum + (design ? count * massOf(studio, design).dryKg : 0)
  }, 0)
  const shelves = load?.levels.flatMap(({ shelves: placed }) => placed.map(({ shelfId }) => shelfId)) ?? []
  const furnitureKg = load
    ? shelves.reduce((sum, shelfId) => sum + (space.furniture.shelves.find(({ id }) => id === shelfId)?.massKg ?? 0), 0)
    : (FURNITURE_KG_PER_M3 * chamberMm3(space)) / 1e9
  return heatOf(wareKg, furnitureKg, kind)
}

const heatOf = (wareKg: number, furnitureKg: number, kind: FiringKind): FiringLoad => ({
  wareKg,
  furnitureKg,
  waterKg: kind === 'bisque' ? wareKg * WATER_LEFT_RATIO : 0,
  kaoliniteRatio: kind === 'bisque' ? KAOLINITE_RATIO : 0,
})

/** Volume of a chamber, walls to walls and floor to lid. @see FACTS 4.1: n/4 w² tan(π/n) across flats */
export function chamberMm3({ chamber }: KilnSpace): number {
  const { shape, heightMm } = chamber
  switch (shape.kind) {
    case 'round':
      return (Math.PI / 4) * shape.diameterMm ** 2 * heightMm
    case 'oval':
      return ((Math.PI / 4) * shape.widthMm ** 2 + (shape.lengthMm - shape.widthMm) * shape.widthMm) * heightMm
    case 'many-sided':
      return (shape.sides / 4) * shape.acrossFlatsMm ** 2 * Math.tan(Math.PI / shape.sides) * heightMm
    case 'rectangular':
      return shape.lengthMm * shape.widthMm * heightMm
  }
}
