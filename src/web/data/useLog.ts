/** Writes to the logbook: on screen at once, to the server as soon as it can be reached. */
import type { EntryRecord } from '#contract/entry.ts'
import { toast } from '#web/app/toasts.ts'
import { deviceId, newId, nextDeviceSeq } from './device.ts'
import { markTakenBack, putTap, type Tap } from './outbox.ts'

type KindAndBody<Entry> = Entry extends { readonly kind: infer Kind; readonly body: infer Body }
  ? { readonly kind: Kind; readonly body: Body }
  : never
/** What happened, without all that every entry has. */
export type Happened = KindAndBody<EntryRecord>

export type Deed = {
  readonly happened: readonly Happened[]
  /** Said back to the person: "Joined 4 Tea trays". */
  readonly said: string
  /** The planned task that it answers. */
  readonly task?: { readonly planId: string; readonly id: string } | undefined
  /** False: the task is not done by it, something was only found out. */
  readonly finishes?: boolean | undefined
  readonly by?: string | undefined
  /** ISO; now if not said. */
  readonly at?: string | undefined
  /** How far the time may be off either way. */
  readonly roughMin?: number | undefined
}

/** @returns writes one deed and offers to take it back */
export const useLog = () => logDeed

function logDeed(deed: Deed): void {
  const tap = {
    entries: entriesOf(deed),
    taskId: deed.task?.id ?? null,
    finishes: deed.finishes ?? true,
    said: deed.said,
  }
  putTap(tap)
  toast({ said: deed.said, undo: () => takeBack(tap) })
}

/** By entries that make void what was logged; the logbook forgets nothing. */
export function takeBack({ entries, said }: Pick<Tap, 'entries' | 'said'>): void {
  // Last first: an entry may stand on the one before it.
  const happened = entries.toReversed().map(({ id }): Happened => ({ kind: 'corrected', body: { entryId: id } }))
  markTakenBack(entries[0]!.id)
  putTap({ entries: entriesOf({ happened, said }), taskId: null, finishes: false, said: `Taken back: ${said}` })
  toast({ said: `Taken back: ${said}` })
}

function entriesOf({ happened, task, by, at, roughMin }: Deed): EntryRecord[] {
  return happened.map(
    ({ kind, body }) =>
      ({
        id: newId('entry'),
        version: 1,
        kind,
        happenedAt: at ?? new Date().toISOString(),
        roughMin: roughMin ?? 0,
        deviceId: deviceId(),
        deviceSeq: nextDeviceSeq(),
        by: by ?? null,
        body,
        hint: task ? { planId: task.planId, stepId: task.id } : null,
      }) as EntryRecord,
  )
}
