/** Why something could not be kept, and what would help, as sentences. A code without a sentence does not compile. */
import type { CoverKind } from '#core/drying/types.ts'
import type { PlanningReason, PlanningReasonCode, PlanningReasonParams } from '#core/planning/reasons.ts'
import type { HandWork } from '#core/studio/studio.ts'
import { massText } from './amounts.ts'
import type { Context } from './context.ts'
import { durationText, momentText, spanText } from './times.ts'
import { coverTexts, workTexts } from './trade.ts'

type Sentences = {
  readonly [Code in PlanningReasonCode]: (params: PlanningReasonParams[Code], context: Context) => string
}

const work = (name: string): string => workTexts[name as HandWork] ?? name

const sentences: Sentences = {
  'no-making-hours': (p) => `There are no free hours for ${work(p.work)} before the end of what is planned ahead.`,
  'nobody-may': (p) => `Nobody in the studio does ${work(p.work)}, which “${p.step}” needs.`,
  'not-enough-hours': (p, c) =>
    `${work(p.work)} needs ${durationText(p.neededMin)} in one go, and no free span up to ${momentText(p.untilMin, c)} is long enough.`,
  'step-longer-than-any-session': (p) =>
    `“${p.step}” takes ${durationText(p.neededMin)} in one go, longer than any session (${durationText(p.longestMin)}).`,
  'window-never-opens': (p) =>
    `The clay does not come to the firmness that “${p.step}” needs${p.part ? ` (${p.part})` : ''} within four days under any cover.`,
  'window-closes-while-nobody-there': (p, c) =>
    `For “${p.step}” the clay would be past it by about ${momentText(p.closeMin, c)}${p.part ? ` (${p.part} goes first)` : ''}, and nobody is there in time.`,
  'parts-dry-apart': (p) => `For “${p.step}” the parts would differ too much in moisture; ${p.part} dries first.`,
  'no-board-room': (p) =>
    `${p.spot || 'The place it stood'} has no room: ${p.neededBoards} boards are needed and ${p.boards} are free.`,
  'no-mould': (p) => `There are not enough moulds free for “${p.mould}”.`,
  'no-clay': (p, c) =>
    `There is not enough ${p.clay}: ${massText(p.neededKg, c.units)} are needed and ${massText(p.onHandKg, c.units)} are there.`,
  'no-glaze': (p) => `There is not enough of the glaze “${p.glaze}”.`,
  'waits-for-room': (p) =>
    `Nobody waits for ${p.count === 1 ? 'this piece' : `these ${p.count}`}: in with the next load that has room.`,
  'no-kiln-fires': (p) => `No kiln of the studio fires ${p.schedule}.`,
  'too-large-for-every-kiln': (p) => `${p.design} does not go into any kiln, at its size going in.`,
  'kilns-full': (p, c) =>
    `No kiln is free, with somebody there to load and shut it off, up to ${momentText(p.untilMin, c)}.`,
  'nobody-at-shut-off': (p) => `Nobody is there when ${p.kiln} is expected to shut off.`,
  'glaze-does-not-suit': (p) => `The glaze “${p.glaze}” is not for the cone of “${p.schedule}”.`,
  'due-in-the-past': (p, c) => `Its date, ${momentText(p.dueMin, c)}, has passed.`,
  'too-late-to-start': (p, c) =>
    `Begun now it is ready ${momentText(p.earliestReadyMin, c)}, after its date, ${momentText(p.dueMin, c)}.`,
  'never-dry': (p) => `${p.part} does not dry within what is planned ahead.`,
  'pins-contradict': (p, c) =>
    `“${p.step}” is pinned to ${momentText(p.pinnedMin, c)}, where it cannot be: nobody is free, or the clay is not right.`,
  'design-has-no-clay-step': (p) => `${p.design} has no cutting step, so it cannot be begun.`,
  'search-stopped': (p) => `No way was found in ${p.triedCount} tries; that is no proof that there is none.`,
  'remedy-more-hours': (p, c) => `It works if ${p.maker} makes ${spanText(p.startMin, p.endMin, c)}.`,
  'remedy-later-date': (p, c) => `With a later date it is ready ${momentText(p.readyMin, c)}.`,
  'remedy-cover': (p) => `It works ${coverTexts[p.cover as CoverKind] ?? p.cover}.`,
  'remedy-fewer': (p) => `It works with ${p.count === 1 ? 'one piece' : `${p.count} pieces`} fewer.`,
  'remedy-extra-firing': (p) => `It works with one more firing of ${p.kiln}.`,
  'remedy-more-clay': (p, c) => `It works with ${massText(p.massKg, c.units)} more of ${p.clay}.`,
}

/** One sentence for a reason or remedy. */
export const reasonText = (reason: PlanningReason, context: Context): string =>
  (sentences[reason.code] as (params: PlanningReason['params'], context: Context) => string)(reason.params, context)
