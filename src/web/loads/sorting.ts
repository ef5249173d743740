/** What came out of a kiln, as typed; nothing is taken until it adds up. */
import { typedCount } from '#words/typed.ts'

export type Sorted = {
  readonly good: string
  readonly second: string
  readonly refire: string
  readonly lost: string
}
export const sortedNames = ['good', 'second', 'refire', 'lost'] as const

export const allGood = (count: number): Sorted => ({ good: String(count), second: '0', refire: '0', lost: '0' })

/** @returns what to say beside the fields; undefined: it adds up */
export function sortingFault(sorted: Sorted, count: number): string | undefined {
  const wrong = sortedNames.find((name) => Number.isNaN(typedCount(sorted[name])))
  if (wrong) return `“${sorted[wrong]}” is not a number of pieces. Write a whole number, 0 if there are none.`
  const sum = sortedNames.reduce((total, name) => total + typedCount(sorted[name]), 0)
  if (sum === count) return undefined
  return `${count} went in, and ${sum} are sorted: ${sum < count ? `${count - sum} are still to be told` : `${sum - count} too many`}.`
}
