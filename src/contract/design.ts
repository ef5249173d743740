/** A piece as it is made: parts, steps, waiting, firings, losses. Moulds too. */
import { z } from 'zod'
import type { Firmness } from '#core/drying/types.ts'
import { firmnesses } from '#core/drying/clay.ts'
import { handWorks } from '#core/studio/studio.ts'
import { id, listOf, oneOf, quantity, record, share, whole, words, yesNo } from './fields.ts'
import { designFaults } from './designFaults.ts'
import { addFaults } from './fault.ts'
import type { Frozen } from './frozen.ts'
import { footprint } from './outline.ts'

export const mouldRecord = record('a mould', {
  id: id('The id of the mould'),
  name: words('The name of the mould'),
  count: whole('The number of moulds', '', 0, 1_000),
})

export const designPart = record('a part of a design', {
  id: id('The id of the part'),
  name: words('The name of the part'),
  countPerPiece: whole('The number of these parts in a piece', '', 1, 100),
  lengthMm: quantity('Length', 'mm', 1, 2_000),
  widthMm: quantity('Width', 'mm', 1, 2_000),
  thicknessMm: quantity('Thickness', 'mm', 1, 80),
  templateState: oneOf('The state for the template', ['fresh', 'soft', 'leather hard']),
  middleStaysIn: yesNo('Whether the middle of a frame stays in'),
})

const firmnessOrAny = (what: string) =>
  oneOf(what, ['any', ...firmnesses] as unknown as readonly ['any', ...Firmness[]])

export const stepBand = record('the firmness a step needs', {
  from: firmnessOrAny('The wettest firmness for the step'),
  to: firmnessOrAny('The driest firmness for the step'),
  rimTo: z.exactOptional(firmnessOrAny('The driest firmness of a rim')),
  maxDifferenceDb: z.exactOptional(
    quantity('The difference of moisture between joined parts', 'kg water per kg dry clay', 0.001, 0.3),
  ),
})

export const stepKinds = ['cut', 'drape', 'release', 'join', 'surface', 'glaze', 'finish', 'pack'] as const

export const designStep = record('a step of a design', {
  id: id('The id of the step'),
  kind: oneOf('The kind of step', stepKinds),
  name: words('The name of the step'),
  needs: oneOf('The work the step needs', handWorks),
  setupMin: quantity('The time to set up', 'minutes', 0, 480),
  minPerPiece: quantity('The time per piece', 'minutes', 0, 480),
  band: stepBand.nullable(),
  partIds: listOf('parts of the step', id('A part of the step'), 0, 100),
  mouldId: id('The mould of the step').nullable(),
})

export const stacking = record('how pieces stack', {
  maxAbove: whole('The pieces that may stand on or in it', '', 0, 50),
  maxMassAboveKg: quantity('The mass that may stand on it', 'kg', 0, 200),
  top: oneOf('What its top offers', ['none', 'rim', 'flat']),
  hollow: z.exactOptional(
    record('the room inside a piece', { footprint, floorMm: quantity('The height of its floor', 'mm', 0, 1_000) }),
  ),
  onEdge: z.exactOptional(
    record('a piece on its edge', { footprint, heightMm: quantity('Its height on edge', 'mm', 1, 2_000) }),
  ),
})

export const lossRates = record('the losses of a design', {
  dryingRatio: share('The loss up to the bisque', 0, 0.9),
  bisqueRatio: share('The loss in the bisque', 0, 0.9),
  glazeRatio: share('The loss in the glaze firing', 0, 0.9),
  secondRatio: share('The share of seconds', 0, 0.9),
  correlation: share('How far pieces of a load share their luck', 0, 0.95),
  refireGoodRatio: z.exactOptional(share('The share that a refire mends')),
})

export const designRecord = record('a design', {
  id: id('The id of the design'),
  name: words('The name of the design'),
  clayId: id('The clay of the design'),
  outline: oneOf('The outline', ['rectangle', 'round', 'oval']),
  lengthMm: quantity('Length', 'mm', 5, 2_000),
  widthMm: quantity('Width', 'mm', 5, 2_000),
  heightMm: quantity('Height', 'mm', 1, 2_000),
  cornerRadiusMm: quantity('The radius of the corners', 'mm', 0, 1_000),
  parts: listOf('parts', designPart, 1, 60),
  steps: listOf('steps', designStep, 0, 60),
  evenOutHours: record('the hours to even out', {
    least: quantity('The least time to even out', 'hours', 0, 336),
    most: quantity('The most time to even out', 'hours', 0, 1_440),
  }),
  slowDryHours: quantity('The time under loose plastic', 'hours', 0, 720),
  thickestMm: quantity('The thickest spot', 'mm', 1, 80),
  closedForm: yesNo('Whether the form is closed'),
  piecesPerBoard: whole('The pieces on a ware board', '', 1, 500),
  mostPerRun: whole('The most pieces in a run', '', 1, 1_000),
  bisqueScheduleId: id('The bisque firing of the design'),
  glazeScheduleId: id('The glaze firing of the design'),
  glazeIds: listOf('glazes of the design', id('A glaze of the design'), 0, 200),
  glazePerPieceL: quantity('The glaze a piece takes', 'litres', 0, 20),
  losses: lossRates,
  stacking,
  turnsFreely: yesNo('Whether the piece may turn freely on a shelf'),
}).superRefine((design, context) => addFaults(context, designFaults(design)))

export type MouldRecord = Frozen<z.infer<typeof mouldRecord>>
export type DesignRecord = Frozen<z.infer<typeof designRecord>>
