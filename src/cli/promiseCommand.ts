/** `promise DESIGN COUNT [--glaze G]`: a date for a new order, and the odds. */
import { Refusal } from '#app/refusal.ts'
import { earliestDate } from '#core/planning/questions.ts'
import { countText, oddsText } from '#words/amounts.ts'
import { reasonText } from '#words/reasons.ts'
import { dateText, momentText } from '#words/times.ts'
import { type Call, exitCodes, needed, said, wholeOf } from './call.ts'
import { contextOf, planned } from './planning.ts'
import { studioFileOf } from './source.ts'

export async function promiseCommand({ words, options, output }: Call): Promise<number> {
  const wanted = needed(words[1], 'The design')
  const count = wholeOf('The count', needed(words[2], 'The count'), 1, 10_000)
  const file = await studioFileOf(words[3], options)
  const design = file.designs.find(({ id, name }) => id === wanted || name.toLowerCase() === wanted.toLowerCase())
  if (!design)
    throw new Refusal(
      'not-found',
      `There is no design “${wanted}”; there are: ${file.designs.map(({ id }) => id).join(', ') || 'none yet'}.`,
    )
  const glazeId = said(options, 'glaze') ?? null
  if (glazeId !== null && !design.glazeIds.includes(glazeId)) {
    throw new Refusal(
      'invalid',
      `${design.name} is not made in “${glazeId}”; it is made in: ${design.glazeIds.join(', ') || 'no glaze'}.`,
    )
  }
  const { planningCase, plan } = planned(file, options)
  const date = earliestDate(planningCase, plan, [{ designId: design.id, glazeId, count }])
  const context = contextOf(file, options)
  if (options.json) output.out(JSON.stringify(date))
  else if (date.kind === 'none') {
    output.out(`${countText(count, design.name)}: no date can be given within what is planned ahead.`)
    for (const reason of date.reasons) output.out(`  ${reasonText(reason, context)}`)
  } else {
    output.out(
      `${countText(count, design.name)}: packed by ${dateText(date.readyMin, context)}, ${oddsText(date.odds)}.`,
    )
    if (date.lastSafeCutMin !== null)
      output.out(`  The last safe time to cut for it is ${momentText(date.lastSafeCutMin, context)}.`)
    output.out(
      date.disturbed.length === 0
        ? '  No other order is disturbed.'
        : `  It would disturb: ${date.disturbed.join(', ')}.`,
    )
  }
  return exitCodes.done
}
