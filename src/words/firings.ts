/** Why a firing cannot be had, as sentences. A code without a sentence does not compile. */
import type { FiringReason, FiringReasonCode } from '#core/firing/types.ts'
import { temperatureText } from './amounts.ts'
import type { Units } from './context.ts'

type Say = (params: FiringReason['params'], units: Units) => string

const heat = (tempC: number | string | undefined, units: Units): string => temperatureText(Number(tempC), units)

const sentences: Readonly<Record<FiringReasonCode, Say>> = {
  'above-kiln-maximum': (p, units) =>
    `The firing goes to ${heat(p['topC'], units)}, and the kiln may go to ${heat(p['maxTempC'], units)} only.`,
  'power-too-low': (p, units) =>
    `The kiln is too weak for this: it would stop rising at ${heat(p['stuckAtC'], units)}, short of ${heat(p['topC'], units)}.`,
  'cones-differ': (p) => `Cone ${p['a']} and cone ${p['b']} cannot share a firing.`,
  'top-temperatures-differ': (p, units) =>
    `One goes to ${heat(p['a'], units)} and the other to ${heat(p['b'], units)}; they cannot share a firing.`,
  'holds-differ': () => 'They are held at the top for different times, so they cannot share a firing.',
  'coolings-differ': (p) => `“${p['a']}” and “${p['b']}” cool differently, so they cannot share a firing.`,
  'kinds-differ': (p) => `A ${p['a']} and a ${p['b']} firing cannot be one.`,
  'no-members': () => 'There is nothing to fire.',
}

export const firingReasonText = ({ code, params }: FiringReason, units: Units): string => sentences[code](params, units)
