/**
 * Taps on their way to the server. They are kept on the device until the server has them, so that none is lost when the
 * network is, nor when the page is closed; ids made here let the server take each just once.
 */
import type { QueryClient } from '@tanstack/react-query'
import type { EntryRecord } from '#contract/entry.ts'
import { answerOf, client, Unmet } from './client.ts'
import { keys } from './queries.ts'
import { createSignal } from './signal.ts'

/** What a person did in one go. */
export type Tap = {
  readonly entries: readonly EntryRecord[]
  /** The task of the plan that it answers, if one. */
  readonly taskId: string | null
  /** Whether that task is thereby done; else something was only found out on the way. */
  readonly finishes: boolean
  /** What was done, said back. */
  readonly said: string
}
/** `kept` with the position of its last entry: a plan that reaches it has taken the tap in. */
export type TapState = Tap & {
  readonly status: 'waiting' | 'kept' | 'refused'
  readonly position: number | null
  readonly why: string | null
  readonly takenBack: boolean
}

/** One for each tap, so that two tabs of a browser never overwrite each other's. */
const keyPrefix = 'wareboard.tap.'
/** A tap that the plan has long taken in is of no more use. */
const mostRemembered = 200
/** Answers after which the same entries may yet be taken: no studio, too slow, too many, and all faults of the server. */
const mayBeTakenLater = (status: number): boolean => status === 404 || status === 408 || status === 429 || status >= 500

/** Oldest first. */
export const taps = createSignal<readonly TapState[]>([])

let queries: QueryClient | undefined
let isSending = false

export function startOutbox(queryClient: QueryClient): void {
  queries = queryClient
  taps.set(readKept())
  addEventListener('online', () => void sendTaps())
  addEventListener('storage', heardFromOtherTab)
  void sendTaps()
}

/** On screen at once, then to the server. */
export function putTap(tap: Tap): void {
  keep({ ...tap, status: 'waiting', position: null, why: null, takenBack: false })
  void sendTaps()
}

export function markTakenBack(firstEntryId: string): void {
  const tap = taps.get().find((other) => idOf(other) === firstEntryId)
  if (tap) keep({ ...tap, takenBack: true })
}

/** The person has read why it was refused. */
export function forget(tap: TapState): void {
  localStorage.removeItem(keyPrefix + idOf(tap))
  taps.set(taps.get().filter((other) => idOf(other) !== idOf(tap)))
}

/** Sends all that waits, in the order in which it was done; what cannot be sent now waits on. */
export async function sendTaps(): Promise<void> {
  if (isSending) return
  isSending = true
  try {
    for (let next = firstWaiting(); next; next = firstWaiting()) await send(next)
  } catch {
    // Not reachable: the events tell when it is again.
  } finally {
    isSending = false
  }
}

async function send(tap: TapState): Promise<void> {
  try {
    const { logPosition, places } = await answerOf(client.log.$post({ json: [...tap.entries] }))
    settle(tap, { status: 'kept', position: Math.max(logPosition, ...places.map(({ position }) => position)) })
    void queries?.invalidateQueries({ queryKey: keys.state })
  } catch (error) {
    if (!(error instanceof Unmet) || mayBeTakenLater(error.problem.status)) throw error
    settle(tap, { status: 'refused', why: error.message })
  }
}

const idOf = ({ entries }: Tap): string => entries[0]!.id
const firstWaiting = () => taps.get().find(({ status }) => status === 'waiting')

/** It may have been taken back while it was on its way. */
const settle = (tap: TapState, how: Partial<TapState>): void =>
  keep({ ...(taps.get().find((other) => idOf(other) === idOf(tap)) ?? tap), ...how })

function keep(tap: TapState): void {
  show(tap)
  const key = keyPrefix + idOf(tap)
  // Written even when it is about to go: that is how other tabs hear of it.
  localStorage.setItem(key, JSON.stringify(tap))
  if (tap.status === 'kept') localStorage.removeItem(key)
}

function show(tap: TapState): void {
  const shown = taps.get()
  const isKnown = shown.some((other) => idOf(other) === idOf(tap))
  const next = isKnown ? shown.map((other) => (idOf(other) === idOf(tap) ? tap : other)) : [...shown, tap]
  taps.set(next.filter((other, i) => i >= next.length - mostRemembered || other.status !== 'kept'))
}

function heardFromOtherTab({ key, newValue }: Pick<StorageEvent, 'key' | 'newValue'>): void {
  if (!key?.startsWith(keyPrefix)) return
  if (newValue) readTap(newValue).forEach(show)
  else taps.set(taps.get().filter((tap) => tap.status !== 'refused' || keyPrefix + idOf(tap) !== key))
}

/** What this browser had not brought to the server when it was closed, in the order in which it was done. */
const readKept = (): readonly TapState[] =>
  Array.from({ length: localStorage.length }, (_, i) => localStorage.key(i)!)
    .filter((key) => key.startsWith(keyPrefix))
    .flatMap((key) => readTap(localStorage.getItem(key)))
    .toSorted((a, b) => a.entries[0]!.deviceSeq - b.entries[0]!.deviceSeq)

/** None where it cannot be read: the page must open all the same. */
function readTap(text: string | null): TapState[] {
  try {
    const tap = JSON.parse(text ?? '') as TapState
    return tap.entries.length > 0 ? [tap] : []
  } catch {
    return []
  }
}
