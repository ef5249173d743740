/** What to beware of, as sentences. A code without a sentence does not compile. */
import { type CautionCode, cautions } from '#core/clay/cautions.ts'

const MANUAL = 'Follow the kiln’s manual, local codes and a licensed electrician or gas fitter.'

const sentences: Readonly<Record<CautionCode, string>> = {
  'silica-dust': 'Dust of dry clay harms the lungs: wipe wet, do not sweep.',
  'sanding-dust': 'Sand wet, or outdoors with a fitted respirator.',
  'kiln-fumes': 'Kilns give off fumes: air the room, and stay out of it while they fire.',
  'carbon-monoxide': 'Clay that burns out gives off carbon monoxide: air the room, and have an alarm.',
  'clearance-to-walls': `Keep the kiln clear of walls. ${MANUAL}`,
  'nothing-that-burns-near': `Keep everything that burns away from the kiln. ${MANUAL}`,
  'own-circuit': `A kiln needs a circuit of its own. ${MANUAL}`,
  'opening-hot': 'Do not open the kiln hot: it burns, and ware cracks.',
  'cool-wide-flats-slowly': 'Wide flat ware cracks when it cools fast: let it cool slowly.',
  'damp-ware-bursts': 'Ware that may be damp bursts: candle it longer, or wait.',
  'cone-leading-zero': 'A cone with a leading zero is another cone: 05 and 5 are far apart. Look again.',
  'outside-clay-range': 'This cone is outside the range of the clay.',
  'leach-test': 'Have a glaze for food leach-tested on this clay and in this firing.',
  'metals-in-liner': 'This glaze has metals that do not belong where food touches it.',
  'crazed-food-ware': 'Crazed ware is not for food.',
  'oven-ware-care': 'Ware for the oven goes in cold and warms up with the oven; not on a flame.',
  'oven-ware-test': 'Test ware for heat shock before it is sold for the oven.',
  'eyes-at-peephole': 'Wear shaded glasses made for it when looking into a hot kiln.',
  'cone-is-estimate': 'The temperature of a cone is an estimate: trust witness cones.',
  'be-there-at-shut-off': 'Be there when the kiln is expected to shut off: no switch is sure.',
  'plaster-crumbs': 'Keep crumbs of plaster out of the clay: they blow pieces out of the ware.',
  frost: 'Only ware that takes up little water stands frost.',
}

export const cautionText = (code: CautionCode): string => sentences[code]

/** Whence a caution comes, to be shown beside it. */
export const cautionSource = (code: CautionCode): string => cautions.find((caution) => caution.code === code)!.source
