/** `promise DESIGN COUNT [--glaze G]`: a date for a new order, and the odds. */
import { dayAt } from '#app/calendar/zone.ts'
import { type HonestDate, honestDate } from '#app/questions/honestDate.ts'
import { Refusal } from '#app/refusal.ts'
import { planningCaseOf } from '#app/studio/planningCaseOf.ts'
import type { OrderRecord } from '#contract/order.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import { countText } from '#words/amounts.ts'
import { promiseSaid } from '#words/promises.ts'
import { type Call, exitCodes, needed, type Options, said, wholeOf } from './call.ts'
import { caseOf, contextOf } from './planning.ts'
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
  const date = await dateFor(file, options, { id: WISH_ID, designId: design.id, glazeId, count })
  const { answer, sentences } = promiseSaid(date, file.orders, contextOf(file, options))
  if (options.json) output.out(JSON.stringify(date))
  else
    for (const line of [`${countText(count, design.name)}: ${answer}`, ...sentences.map((said) => `  ${said}`)])
      output.out(line)
  return exitCodes.done
}

const WISH_ID = 'wish'

/** As soon as it can be, at whatever odds there are: they are said with it. */
async function dateFor(file: StudioFile, options: Options, line: OrderRecord['lines'][number]): Promise<HonestDate> {
  const { seed, effort } = options
  const nowMin = options.nowIn(file.studio.zone)
  const plan = makePlan(caseOf(file, options))
  const studio = { tables: file, entries: file.entries, logPosition: file.entries.length }
  const order = {
    id: WISH_ID,
    kind: 'customer',
    name: WISH_ID,
    dueDate: dayAt(nowMin, file.studio.zone),
    weight: 1,
    oddsWanted: 0,
    lines: [line],
  } as const
  return honestDate(studio, nowMin, order, ({ tables, entries, logPosition }, soonOrderIds = []) =>
    makePlan({
      ...planningCaseOf(tables, entries, { nowMin, logPosition, seed, effort, basePlan: plan }),
      soonOrderIds,
    }),
  )
}
