/** A design's parts as drying sees them. */
import { USUAL_RIM_MM } from '#core/drying/surroundings.ts'
import type { BoardKind, PartClass } from '#core/drying/types.ts'
import type { Design, DesignPart } from '#core/studio/studio.ts'

/** Share of the room's film that the inner faces of a box or pan see until its top opens. Assumption, see `PartClass`. */
const CLOSED_FORM_SHARE = 0.5

/** The parts of a design while they wait for a step, in the design's order; the thickest spot counts once it is built. */
export const partClassesOf = (design: Design, board: BoardKind): readonly PartClass[] =>
  design.parts.map((part) => partClassOf(part, board))

/** The piece once it is built, as far as dryness goes: a slab as thick as its thickest spot, which is dry last. */
export const builtClassOf = (design: Design, board: BoardKind): PartClass => ({
  thicknessMm: Math.max(design.thickestMm, ...design.parts.map((part) => part.thicknessMm)),
  board,
  ...(design.closedForm ? { innerFaceShare: CLOSED_FORM_SHARE } : {}),
})

/** What is trued later than fresh loses its edge with it, and with the edge what has dried first. */
function partClassOf({ thicknessMm, widthMm, middleStaysIn, templateState }: DesignPart, board: BoardKind): PartClass {
  return {
    thicknessMm,
    board,
    ...(templateState === 'fresh' ? { rim: { widthMm: USUAL_RIM_MM } } : {}),
    ...(middleStaysIn ? { frame: { barWidthMm: widthMm, middleIn: true } } : {}),
  }
}
