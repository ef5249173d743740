/** The runs of a studio's file, as its logbook leaves them. */
import { Refusal } from '#app/refusal.ts'
import { toEntries } from '#app/studio/toEntries.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { logStateOf } from '#core/logbook/fold.ts'
import type { RunState } from '#core/logbook/state.ts'
import { findNamed } from './named.ts'

/** Those of which something is left. */
export const runsOf = (file: StudioFile): readonly RunState[] => allRuns(file).filter(({ stage }) => stage !== 'gone')

/**
 * A run by its name, or by its design where only one run of that is under way.
 * @throws Refusal `not-found`, with the names to choose from
 */
export function runNamed(file: StudioFile, wanted: string): RunState {
  const all = allRuns(file)
  const called = all.find(({ id }) => id === wanted)
  if (called) return called
  const left = all.filter(({ stage }) => stage !== 'gone')
  const design = findNamed(file.designs, wanted)
  const found = left.filter(({ designId }) => designId === design?.id)
  if (found.length === 1) return found[0]!
  throw new Refusal(
    'not-found',
    found.length > 1
      ? `There are several runs of “${wanted}”; say which: ${namesOf(found)}.`
      : `There is no run “${wanted}” under way; there are: ${namesOf(left) || 'none yet'}. \`runs\` tells more of each.`,
  )
}

const allRuns = (file: StudioFile): readonly RunState[] => logStateOf(file, toEntries(file.entries)).runs

const namesOf = (runs: readonly RunState[]): string => runs.map(({ id }) => id).join(', ')
