/** Listens to the server, and has shown data asked for anew when something happened. */
import type { QueryClient } from '@tanstack/react-query'
import { sendTaps } from './outbox.ts'
import { keys } from './queries.ts'
import { createSignal } from './signal.ts'

export type Link = 'open' | 'lost'
/** `failed`: what was planned could not be kept, and the last plan stands. */
export type Planning = 'idle' | 'planning' | 'improving' | 'failed'

export const link = createSignal<Link>('open')
export const planning = createSignal<Planning>('idle')

const againMs = 1_500

export function followEvents(queryClient: QueryClient): void {
  const events = new EventSource('/api/events')
  const refresh = (...names: (keyof typeof keys)[]) => {
    for (const name of names) void queryClient.invalidateQueries({ queryKey: keys[name] })
  }
  const on = (kind: string, then: (data: { readonly effort?: number }) => void) =>
    events.addEventListener(kind, (event) => then(JSON.parse((event as MessageEvent<string>).data)))
  on('hello', () => {
    link.set('open')
    void sendTaps()
    refresh('plan', 'studio', 'state')
  })
  on('logged', () => refresh('studio', 'state'))
  on('planning', ({ effort = 0 }) => planning.set(effort === 0 ? 'planning' : 'improving'))
  on('planned', () => {
    planning.set('idle')
    refresh('plan')
  })
  on('settled', () => {
    planning.set('idle')
    refresh('plan')
  })
  on('not-planned', () => planning.set('failed'))
  // The stream also ends while there is no studio yet: only a server that does not answer is lost.
  events.addEventListener('error', () => {
    void isReachable().then((reachable) => link.set(reachable ? 'open' : 'lost'))
    if (events.readyState !== EventSource.CLOSED) return
    setTimeout(() => followEvents(queryClient), againMs)
  })
}

async function isReachable(): Promise<boolean> {
  try {
    return (await fetch('/healthz', { cache: 'no-store' })).ok
  } catch {
    return false
  }
}
