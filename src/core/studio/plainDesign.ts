import { NO_STACKING } from '#core/loading/types.ts'
import type { Design, DesignPart, DesignStep, HandWork, StepKind } from './studio.ts'

/**
 * How a piece is built, where one word says it: four sides on a base; a wall rolled up on a round base; one slab shaped
 * over a form.
 */
export type Build = 'box' | 'cylinder' | 'slab'
export const builds: readonly Build[] = ['box', 'cylinder', 'slab']

/** What a potter knows of a piece at once. Finished sizes; the thickness as rolled; minutes for each piece. */
export type PlainPiece = {
  readonly id: string
  readonly name: string
  readonly build: Build
  readonly lengthMm: number
  /** A cylinder is as wide as it is long. */
  readonly widthMm: number
  readonly heightMm: number
  readonly thicknessMm: number
  readonly cutMin: number
  /** Joining, or shaping over the form. */
  readonly buildMin: number
  /** Glazing, grinding the foot, looking over and packing. */
  readonly finishMin: number
}

export type PlainMaterials = Pick<Design, 'clayId' | 'glazeIds' | 'bisqueScheduleId' | 'glazeScheduleId'>

/** Wet ware over finished ware, lengths and thicknesses alike. Common practice, no source: some 11 % of the wet size shrink away. */
const WET_PER_FINISHED = 1.125
/** A ware board, and a thumb's breadth between pieces. Common practice, no source. */
const BOARD = { lengthMm: 600, widthMm: 300, gapMm: 20 }
/** What a fillet of slip and coil adds where walls meet. Common practice, no source. */
const SEAM_MM = 2
/** A dipped coat, wet, over all faces. Common practice, no source. */
const GLAZE_COAT_MM = 0.75
/** Glazing takes most of what follows the bisque. Common practice, no source. */
const GLAZE_SHARE = 0.6

/** The design in full, with what is usual where the potter has not said; every field can be amended afterwards. */
export function plainDesign(piece: PlainPiece, materials: PlainMaterials): Design {
  const { id, name, build, lengthMm, heightMm, thicknessMm } = piece
  const widthMm = build === 'cylinder' ? lengthMm : piece.widthMm
  const isJoined = build !== 'slab'
  return {
    id,
    name,
    outline: build === 'cylinder' ? 'round' : 'rectangle',
    lengthMm,
    widthMm,
    heightMm,
    cornerRadiusMm: build === 'cylinder' ? 0 : Math.min(4, Math.min(lengthMm, widthMm) / 2),
    parts: parts[build]({ ...piece, widthMm }),
    steps: steps(piece),
    evenOutHours: isJoined ? { least: 24, most: 120 } : { least: 0, most: 96 },
    slowDryHours: isJoined ? 24 : 36,
    thickestMm: thicknessMm + (isJoined ? SEAM_MM : 0),
    closedForm: false,
    piecesPerBoard: perBoard(lengthMm, widthMm),
    mostPerRun: 12,
    glazePerPieceL: (facesMm2({ ...piece, widthMm }) * GLAZE_COAT_MM) / 1e6,
    losses: { dryingRatio: 0.05, bisqueRatio: 0.01, glazeRatio: 0.03, secondRatio: 0.05, correlation: 0.1 },
    stacking: NO_STACKING,
    turnsFreely: true,
    ...materials,
  }
}

const finished = (wetMm: number): number => wetMm / WET_PER_FINISHED

type Sizes = Pick<PlainPiece, 'lengthMm' | 'widthMm' | 'heightMm' | 'thicknessMm'>

const parts: Readonly<Record<Build, (sizes: Sizes) => DesignPart[]>> = {
  box: ({ lengthMm, widthMm, heightMm, thicknessMm }) => [
    part('base', 'Base', 1, lengthMm, widthMm, thicknessMm),
    part('long-side', 'Long side', 2, lengthMm, heightMm, thicknessMm),
    part('short-side', 'Short side', 2, Math.max(1, widthMm - 2 * finished(thicknessMm)), heightMm, thicknessMm),
  ],
  cylinder: ({ lengthMm, heightMm, thicknessMm }) => [
    part('wall', 'Wall', 1, Math.PI * Math.max(1, lengthMm - finished(thicknessMm)), heightMm, thicknessMm),
    part('base', 'Base', 1, lengthMm, lengthMm, thicknessMm),
  ],
  slab: ({ lengthMm, widthMm, thicknessMm }) => [
    { ...part('slab', 'Slab', 1, lengthMm, widthMm, thicknessMm), templateState: 'fresh' },
  ],
}

const part = (
  id: string,
  name: string,
  countPerPiece: number,
  lengthMm: number,
  widthMm: number,
  thicknessMm: number,
): DesignPart => ({
  id,
  name,
  countPerPiece,
  lengthMm: Math.round(lengthMm),
  widthMm: Math.round(widthMm),
  thicknessMm,
  templateState: 'leather hard',
  middleStaysIn: false,
})

function steps({ build, cutMin, buildMin, finishMin }: PlainPiece): DesignStep[] {
  const built: Readonly<Record<Build, DesignStep>> = {
    box: {
      ...step('join', 'Join the sides', 'join', 5, buildMin),
      band: { from: 'leather hard', to: 'firm' },
    },
    cylinder: {
      ...step('join', 'Roll up and join', 'join', 5, buildMin),
      band: { from: 'soft', to: 'firm' },
    },
    slab: {
      ...step('surface', 'Shape over the form', 'surface', 5, buildMin),
      band: { from: 'soft', to: 'leather hard' },
    },
  }
  return [
    step('cut', 'Roll and cut', 'slab', 10, cutMin),
    built[build],
    step('glaze', 'Wax and glaze', 'glaze', 15, finishMin * GLAZE_SHARE),
    step('finish', 'Grind the foot and look over', 'finish', 5, (finishMin * (1 - GLAZE_SHARE)) / 2),
    step('pack', 'Pack', 'finish', 5, (finishMin * (1 - GLAZE_SHARE)) / 2),
  ]
}

/** A plain design has one step of each kind, which names it. */
const step = (kind: StepKind, name: string, needs: HandWork, setupMin: number, minPerPiece: number): DesignStep => ({
  id: kind,
  kind,
  name,
  needs,
  setupMin,
  minPerPiece,
  band: null,
  partIds: [],
  mouldId: null,
})

function perBoard(lengthMm: number, widthMm: number): number {
  const { gapMm } = BOARD
  const rows = (boardMm: number, pieceMm: number) =>
    Math.floor((boardMm + gapMm) / (pieceMm * WET_PER_FINISHED + gapMm))
  const along = rows(BOARD.lengthMm, lengthMm) * rows(BOARD.widthMm, widthMm)
  const across = rows(BOARD.lengthMm, widthMm) * rows(BOARD.widthMm, lengthMm)
  return Math.max(1, along, across)
}

/** Inside and outside. */
function facesMm2({ build, lengthMm, widthMm, heightMm }: Pick<PlainPiece, 'build'> & Sizes): number {
  if (build === 'slab') return 2 * lengthMm * widthMm
  if (build === 'cylinder') return 2 * ((Math.PI / 4) * lengthMm ** 2 + Math.PI * lengthMm * heightMm)
  return 2 * (lengthMm * widthMm + 2 * (lengthMm + widthMm) * heightMm)
}
