/**
 * Ways of covering a run while it firms up: one cover throughout, or one by day and plastic overnight, when nobody is
 * there to see how it goes. Every change is made at a look-in.
 */
import type { CoverKind, CoverSpan } from '#core/drying/types.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import { type Diary, earliestSlot, latestSlot, type Slot } from './diary.ts'

/** A cover set at a look-in. */
export type Change = { readonly slot: Slot; readonly cover: CoverKind }

/** How a run waits unless it is parked: the cover it begins under, and the changes after it. */
export type Covering = { readonly first: CoverKind; readonly changes: readonly Change[] }

/** A time without any possible look-in this long is a night. Our choice. */
const NIGHT_MIN = 5 * MIN_PER_HOUR

/** From covering to spans of covers. */
export const spansOf = ({ first, changes }: Covering, fromMin: Minute, spotId: string): CoverSpan[] => [
  { fromMin, cover: first, spotId },
  ...changes.map(({ slot, cover }) => ({ fromMin: slot.endMin, cover, spotId })),
]

/**
 * Coverings worth trying, the least trouble first.
 * @param start the covers that can be set at once; a run under way that nobody is at keeps its one until a look-in
 * @param keeping true: the clay is ready already and is to stay so
 */
export function coveringsToTry(
  diary: Diary,
  start: readonly CoverKind[],
  covers: readonly CoverKind[],
  keeping: boolean,
  fromMin: Minute,
  toMin: Minute,
  lookInMin: number,
): Covering[] {
  const wanted = (kinds: readonly CoverKind[]) => kinds.filter((cover) => covers.includes(cover))
  const nights = nightsBetween(diary, fromMin, toMin, lookInMin)
  const fresh = start.length > 1
  const begun = (cover: CoverKind): Covering | null => {
    if (fresh || start[0] === cover) return { first: cover, changes: [] }
    const lookIn = earliestSlot(diary, 'look-in', null, lookInMin, fromMin, toMin)
    return lookIn && { first: start[0]!, changes: [{ slot: lookIn, cover }] }
  }
  const throughout = wanted(
    keeping ? ['tucked', 'sealed', 'loose', 'damp cupboard'] : ['loose', 'cloth', 'open'],
  ).flatMap((cover) => begun(cover) ?? [])
  const night = covers.includes('tucked') ? 'tucked' : covers.includes('sealed') ? 'sealed' : 'loose'
  const byDay = wanted(['cloth', 'open', 'loose']).flatMap((cover) => {
    const begin = begun(cover)
    return begin ? withNights(begin, cover, night, nights) : []
  })
  // As it lies, for a run under way: the least trouble of all.
  const asItLies = fresh ? [] : [{ first: start[0]!, changes: [] }]
  return keeping
    ? [...asItLies, ...throughout, ...byDay]
    : [...asItLies, ...throughout.slice(0, 1), ...byDay.slice(0, 2), ...throughout.slice(1), ...byDay.slice(2)]
}

type Night = { readonly evening: Slot; readonly morning: Slot }

function withNights(begin: Covering, day: CoverKind, night: CoverKind, nights: readonly Night[]): Covering {
  const begunMin = begin.changes.at(-1)?.slot.endMin ?? Number.NEGATIVE_INFINITY
  const changes = nights
    .filter(({ evening }) => evening.startMin >= begunMin)
    .flatMap(({ evening, morning }) => [
      { slot: evening, cover: night },
      { slot: morning, cover: day },
    ])
  return { first: begin.first, changes: [...begin.changes, ...changes] }
}

/** The last look-in before each night and the first after it. */
export function nightsBetween(diary: Diary, fromMin: Minute, toMin: Minute, lookInMin: number): Night[] {
  const nights: Night[] = []
  const spans = diary.pages
    .flatMap(({ free }) => free['look-in'])
    .filter(({ startMin, endMin }) => endMin > fromMin && startMin < toMin && endMin - startMin >= lookInMin)
    .toSorted((a, b) => a.startMin - b.startMin)
  let thereUntilMin = fromMin
  for (const { startMin, endMin } of spans) {
    if (startMin - thereUntilMin >= NIGHT_MIN) {
      const evening = latestSlot(diary, 'look-in', null, lookInMin, fromMin, thereUntilMin)
      const morning = earliestSlot(diary, 'look-in', null, lookInMin, startMin, toMin)
      if (evening && morning) nights.push({ evening, morning })
    }
    thereUntilMin = Math.max(thereUntilMin, endMin)
  }
  return nights
}
