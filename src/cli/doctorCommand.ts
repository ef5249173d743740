/** `doctor`: whether all is well, and what to do where it is not. */
import { logStateOf } from '#core/logbook/fold.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { countText } from '#words/amounts.ts'
import { questionText } from '#words/questions.ts'
import { durationText } from '#words/times.ts'
import { type Call, exitCodes } from './call.ts'
import { planned } from './planning.ts'
import { studioFileOf } from './source.ts'

type Finding = { readonly what: string; readonly well: boolean; readonly details: readonly string[] }

/** A clock more than this behind the newest entry is not to be trusted. */
const CLOCK_SLACK_MIN = 10

export async function doctorCommand({ words, options, output }: Call): Promise<number> {
  const file = await studioFileOf(words[1], options)
  const { planningCase, plan, breaches } = planned(file, options)
  const { nowMin } = planningCase.input
  const state = logStateOf(planningCase.studio, planningCase.entries)
  const newestMin = Math.max(Number.NEGATIVE_INFINITY, ...planningCase.entries.map(({ happenedMin }) => happenedMin))
  const airAges = planningCase.studio.spots
    .filter(({ air }) => air.kind === 'log')
    .map(({ id, name }) => {
      const newest = Math.max(
        Number.NEGATIVE_INFINITY,
        ...planningCase.studio.airReadings.filter(({ spotId }) => spotId === id).map(({ minute }) => minute),
      )
      return { name, ageMin: nowMin - newest }
    })
  const stale = airAges.filter(({ ageMin }) => ageMin > MIN_PER_DAY)
  const findings: Finding[] = [
    { what: 'The studio’s file is whole', well: true, details: [] },
    {
      what: 'Nothing in the logbook needs an answer',
      well: state.questions.length === 0,
      details: state.questions.map((question) => `${question.entryId}: ${questionText(question)}`),
    },
    {
      what: 'The plan keeps what a plan must keep',
      well: breaches.length === 0,
      details: breaches.map(({ check }) => check),
    },
    {
      what: 'Nothing ordered is left out',
      well: plan.leftOut.length === 0,
      details: plan.leftOut.map(({ count, designId, orderId }) =>
        leftOutText(count, nameIn(file.designs, designId), orderId && nameIn(file.orders, orderId)),
      ),
    },
    {
      what: 'The air is known of the last day',
      well: stale.length === 0,
      details: stale.map(
        ({ name, ageMin }) =>
          `${name}: ${Number.isFinite(ageMin) ? `last read ${durationText(ageMin)} ago` : 'never read'}; log it, or say it in three words`,
      ),
    },
    {
      what: 'The clock is not behind the logbook',
      well: !(newestMin > nowMin + CLOCK_SLACK_MIN),
      details: newestMin > nowMin + CLOCK_SLACK_MIN ? ['Set this machine’s clock: an entry lies in its future.'] : [],
    },
  ]
  if (options.json) output.out(JSON.stringify(findings))
  else
    for (const { what, well, details } of findings) {
      output.out(`${well ? 'well ' : 'LOOK '} ${what}`)
      for (const detail of details.slice(0, 10)) output.out(`        ${detail}`)
    }
  return breaches.length === 0 ? exitCodes.done : exitCodes.fault
}

const leftOutText = (count: number, design: string, order: string | null): string =>
  `${countText(count, design)}${order === null ? '' : ` for ${order}`}; \`plan\` says why`

const nameIn = (things: readonly { readonly id: string; readonly name: string }[], id: string): string =>
  things.find((thing) => thing.id === id)?.name ?? id
