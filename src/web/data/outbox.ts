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

const storeKey = 'wareboard.outbox'
/** A tap that the plan has long taken in is of no more use. */
const mostRemembered = 200

export const taps = createSignal<readonly TapState[]>(readKept())

let queries: QueryClient | undefined
let isSending = false

export function startOutbox(queryClient: QueryClient): void {
  queries = queryClient
  addEventListener('online', () => void sendTaps())
  void sendTaps()
}

/** On screen at once, then to the server. */
export function putTap(tap: Tap): void {
  keep([...taps.get(), { ...tap, status: 'waiting', position: null, why: null, takenBack: false }])
  void sendTaps()
}

export const markTakenBack = (firstEntryId: string): void =>
  keep(taps.get().map((tap) => (tap.entries[0]!.id === firstEntryId ? { ...tap, takenBack: true } : tap)))

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
    if (!(error instanceof Unmet) || error.problem.status >= 500) throw error
    settle(tap, { status: 'refused', why: error.message })
  }
}

const firstWaiting = () => taps.get().find(({ status }) => status === 'waiting')

const settle = (tap: TapState, how: Partial<TapState>): void =>
  keep(taps.get().map((other) => (other.entries[0]!.id === tap.entries[0]!.id ? { ...other, ...how } : other)))

function keep(next: readonly TapState[]): void {
  const shown = next.slice(-mostRemembered)
  taps.set(shown)
  localStorage.setItem(storeKey, JSON.stringify(shown.filter(({ status }) => status === 'waiting')))
}

function readKept(): readonly TapState[] {
  try {
    return JSON.parse(localStorage.getItem(storeKey) ?? '[]') as readonly TapState[]
  } catch {
    return []
  }
}
