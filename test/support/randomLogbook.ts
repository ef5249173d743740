import { instantOf } from '#app/studio/wireTime.ts'
import type { DesignRecord } from '#contract/design.ts'
import type { EntryRecord } from '#contract/entry.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import type { Dice } from './dice.ts'

export type LogbookRequest = {
  readonly nowMin: Minute
  readonly runCount: number
  readonly designs: readonly DesignRecord[]
  readonly spotIds: readonly string[]
  readonly kilnIds: readonly string[]
}

type Told = { readonly minute: Minute; readonly kind: EntryRecord['kind']; readonly body: EntryRecord['body'] }

/** Runs in any stage up to glazed, each with a past that adds up. A kiln holds one load at most, and that has been lit. */
export function randomLogbook(die: Dice, request: LogbookRequest): EntryRecord[] {
  const kilnsFree = [...request.kilnIds]
  const told = Array.from({ length: request.runCount }, (_, index) =>
    runOf(die, `run-${index}`, request, kilnsFree),
  ).flat()
  return told
    .toSorted((a, b) => a.minute - b.minute)
    .map(
      ({ minute, kind, body }, index) =>
        ({
          id: `entry-${index + 1}`,
          version: 1,
          kind,
          happenedAt: instantOf(minute),
          roughMin: die.one([0, 0, 15]),
          deviceId: 'phone',
          deviceSeq: index + 1,
          by: null,
          body,
          hint: null,
        }) as EntryRecord,
    )
}

function runOf(die: Dice, runId: string, { nowMin, designs, spotIds }: LogbookRequest, kilnsFree: string[]): Told[] {
  const design = die.one(designs)
  const spotId = die.one(spotIds)
  const count = die.between(2, Math.min(10, design.mostPerRun))
  const steps = design.steps.filter(({ kind }) => kind === 'join' || kind === 'drape' || kind === 'release')
  const done = die.between(0, steps.length)
  const isDrying = done === steps.length && die.chance(0.7)
  const kilnId = isDrying && die.chance(0.5) ? kilnsFree.shift() : undefined
  const told: Told[] = []
  // Backwards from now: when the last thing happened, then a day or so between one and the next.
  const lastMin = nowMin - die.between(30, 1_000)
  let minute = lastMin - (kilnId ? 8 * MIN_PER_DAY : isDrying ? die.between(1, 6) * MIN_PER_DAY : 0) - done * 1_300
  const tell = (kind: Told['kind'], body: object, afterMin = 0) => {
    minute += afterMin
    told.push({ minute, kind, body: body as Told['body'] })
  }
  tell('cut', { runId, designId: design.id, count, cover: die.one(['open', 'loose', 'loose', 'sealed']), spotId })
  for (const step of steps.slice(0, done)) {
    tell(
      'joined',
      { runId, count, stepId: step.id, cover: die.one(['loose', 'sealed']), spotId },
      die.between(900, 1_300),
    )
  }
  if (isDrying) tell('covered', { runId, cover: die.one(['loose', 'open']) }, die.between(300, 1_200))
  if (!kilnId) return told
  const member = { runId, designId: design.id, glazeId: null, count }
  const firing = { firingId: `firing-${runId}`, kilnId, firingKind: 'bisque', scheduleId: design.bisqueScheduleId }
  const isOut = die.chance(0.5)
  minute = isOut ? lastMin - 3 * MIN_PER_DAY : lastMin - die.between(60, 900)
  tell('loaded', { ...firing, members: [member] })
  tell('fired', { firingId: firing.firingId, candleHours: die.between(0, 4) }, 20)
  if (!isOut) return told
  tell(
    'unloaded',
    { firingId: firing.firingId, sorted: [{ ...member, good: count, second: 0, refire: 0, lost: 0, cause: null }] },
    2 * MIN_PER_DAY,
  )
  if (die.chance(0.5)) {
    tell(
      'glazed',
      { runId, designId: design.id, intoRunId: runId, glazeId: die.one(['white', 'green', 'blue']), count },
      600,
    )
  }
  return told
}
