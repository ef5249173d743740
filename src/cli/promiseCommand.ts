/** `promise DESIGN COUNT [--glaze G]`: a date for a new order, and the odds. */
import { dayAt } from '#app/calendar/zone.ts'
import { type HonestDate, honestDate } from '#app/questions/honestDate.ts'
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import type { OrderRecord } from '#contract/order.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import { countText } from '#words/amounts.ts'
import { promiseSaid } from '#words/promises.ts'
import { type Call, exitCodes, needed, type Options, said, wholeOf } from './call.ts'
import { folded } from './lines.ts'
import { named } from './named.ts'
import { baseOf, caseOf, contextOf } from './planning.ts'
import { type Kept, keptOf } from './source.ts'

export async function promiseCommand({ words, options, output }: Call): Promise<number> {
  const wanted = needed(words[1], 'The design')
  const count = wholeOf('The count', needed(words[2], 'The count'), 1, 10_000)
  const kept = await keptOf(words[3], options)
  const { file } = kept
  const design = named(file.designs, wanted, 'design')
  const glaze = said(options, 'glaze')
  const glazes = file.glazes.filter(({ id }) => design.glazeIds.includes(id))
  const glazeId = glaze === undefined ? null : named(glazes, glaze, `glaze for ${design.name}`).id
  const date = await dateFor(kept, options, { id: WISH_ID, designId: design.id, glazeId, count })
  const { answer, sentences } = promiseSaid(date, file.orders, contextOf(file, options))
  if (options.json) output.out(JSON.stringify(date))
  else
    for (const line of [
      ...folded(`${countText(count, design.name)}: ${answer}`, 0),
      ...sentences.flatMap((sentence) => folded(sentence, 2)),
    ])
      output.out(line)
  return exitCodes.done
}

const WISH_ID = 'wish'

/** As an order is usually wanted; what is less sure is said so. Our choice. */
const ODDS_WANTED = 0.8

/** As soon as it can be. */
async function dateFor(kept: Kept, options: Options, line: OrderRecord['lines'][number]): Promise<HonestDate> {
  const { file } = kept
  const { seed, effort } = options
  const nowMin = options.nowIn(file.studio.zone)
  const plan = baseOf(kept, options) ?? makePlan(caseOf(file, options))
  const studio = { tables: file, entries: file.entries, logPosition: file.entries.length }
  const order = {
    id: WISH_ID,
    kind: 'customer',
    name: WISH_ID,
    dueDate: dayAt(nowMin, file.studio.zone),
    weight: 1,
    oddsWanted: ODDS_WANTED,
    lines: [line],
  } as const
  return honestDate(studio, nowMin, order, ({ tables, entries, logPosition }, soonOrderIds = []) =>
    makePlan({
      ...planningCaseOf(tables, entries, { nowMin, logPosition, seed, effort, basePlan: plan }),
      soonOrderIds,
      isTrial: true,
    }),
  )
}
