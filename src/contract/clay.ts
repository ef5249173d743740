/** Clay bodies and glazes: what they are, and how much there is. */
import { z } from 'zod'
import { cone, coneRangeFault, isConeRange } from './cone.ts'
import { id, listOf, oneOf, quantity, record, share, words, yesNo } from './fields.ts'
import type { Frozen } from './frozen.ts'
import { day } from './time.ts'

/** A value and how far it may stray: by adding, or as the logarithm of a factor. */
const uncertain = (what: string, unit: string, least: number, most: number) =>
  record(`${what.toLowerCase()} with its spread`, {
    value: quantity(what, unit, least, most),
    spread: quantity(`The spread of ${what.toLowerCase()}`, '', 0, 5),
    kind: oneOf('The kind of spread', ['plus', 'times']),
  })

const moisture = 'kg water per kg dry clay'

/** Only what is known to differ from a usual body: what is not given is taken from that, and from the shrinkage. */
export const knownDrying = record('the drying of a clay', {
  startMoistureDb: z.exactOptional(uncertain('Moisture as bagged', moisture, 0.15, 0.4)),
  endOfShrinkageDb: z.exactOptional(uncertain('Moisture at the end of shrinkage', moisture, 0.05, 0.25)),
  oswinA: z.exactOptional(uncertain('Oswin A', '', 0.001, 0.1)),
  oswinB: z.exactOptional(uncertain('Oswin B', '', 0.1, 1)),
  wetDiffusivityM2S: z.exactOptional(uncertain('Diffusivity when wet', 'm2/s', 1e-11, 1e-6)),
  diffusivityFall: z.exactOptional(uncertain('Fall of diffusivity', '', 0, 15)),
  vapourPermeability: z.exactOptional(uncertain('Vapour permeability', 'kg/(m s Pa)', 1e-13, 1e-9)),
  rimFactor: z.exactOptional(uncertain('Rim factor', '', 1, 5)),
  feelShiftDb: z.exactOptional(uncertain('Shift of feel', moisture, -0.05, 0.05)),
})

const shrinkageByStage = record('shrinkage by stage', {
  dryingRatio: share('Drying shrinkage, of the wet length', 0, 0.2),
  bisqueRatio: share('Bisque shrinkage, of the dry length', -0.02, 0.1),
  glazeRatio: share('Glaze firing shrinkage, of the bisque length', -0.02, 0.2),
})

export const clayShrinkage = record('the shrinkage of a clay', {
  length: shrinkageByStage,
  width: z.exactOptional(shrinkageByStage),
  thickness: z.exactOptional(shrinkageByStage),
  shrunkBySoftRatio: z.exactOptional(share('The part of drying shrinkage done when soft')),
  shrunkByLeatherHardRatio: z.exactOptional(share('The part of drying shrinkage done when leather hard')),
})

export const clayRecord = record('a clay', {
  id: id('The id of the clay'),
  name: words('The name of the clay'),
  drying: knownDrying,
  shrinkage: clayShrinkage,
  coneLow: cone('The lowest cone of the clay'),
  coneHigh: cone('The highest cone of the clay'),
  onHandKg: quantity('Clay on hand', 'kg', 0, 1_000_000),
  deliveries: listOf(
    'deliveries to come',
    record('a delivery of clay', {
      date: day('The day of the delivery'),
      massKg: quantity('The clay delivered', 'kg', 0.1, 100_000),
    }),
    0,
    500,
  ),
}).refine(isConeRange, coneRangeFault)

export const glazeRecord = record('a glaze', {
  id: id('The id of the glaze'),
  name: words('The name of the glaze'),
  coneLow: cone('The lowest cone of the glaze'),
  coneHigh: cone('The highest cone of the glaze'),
  foodSafeTested: yesNo('Whether the glaze was tested for food'),
  onHandL: quantity('Glaze in the bucket', 'litres', 0, 10_000).nullable(),
}).refine(isConeRange, coneRangeFault)

export type ClayRecord = Frozen<z.infer<typeof clayRecord>>
export type GlazeRecord = Frozen<z.infer<typeof glazeRecord>>
