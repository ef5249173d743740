/** What the logbook asks of the potter where an entry does not fit. */
import type { Question, QuestionCode } from '#core/logbook/state.ts'

const sentences: Readonly<Record<QuestionCode, (params: Question['params']) => string>> = {
  'unknown-run': (p) => `There is no run “${p['runId'] ?? ''}”. Which one was meant?`,
  'unknown-design': (p) => `There is no design “${p['designId'] ?? ''}”. Which one was meant?`,
  'unknown-step': (p) => `The design has no step “${p['stepId'] ?? ''}”. Which one was done?`,
  'unknown-firing': (p) => `There is no firing “${p['firingId'] ?? ''}”. Which load was meant?`,
  'unknown-entry': () => 'This corrects an entry that is not in the logbook. Is it still to come from another device?',
  'corrects-itself': () => 'This entry corrects itself. What was meant?',
  'design-differs': () => 'The run is of another design. Which was it?',
  'more-than-there-are': (p) =>
    `${p['count'] ?? 'More'} pieces were said, but there are only ${p['there'] ?? 'fewer'}. How many was it?`,
  'wrong-stage': () =>
    'The ware is not where this could be done to it. Did something happen before that was not written down?',
  'step-out-of-order': () => 'A step before this one was not written down. It is taken as done: is that right?',
  'not-on-the-shelf': (p) =>
    `Only ${p['there'] ?? 'fewer'} of ${p['count'] ?? 'these'} stand on the shelf. How many was it?`,
  'kiln-already-loaded': () => 'The load before was never said to be out of this kiln. What came out of it?',
  'made-twice': () => 'This was said before. Did it happen twice?',
  'count-does-not-add-up': () => 'The sorted pieces are not as many as went in. What became of the rest?',
}

export const questionText = ({ code, params }: Question): string => sentences[code](params)
