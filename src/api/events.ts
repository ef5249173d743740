import { Hono } from 'hono'
import { type SSEStreamingApi, streamSSE } from 'hono/streaming'
import type { Happening, Happenings } from '#app/happenings.ts'
import type { ApiEnv } from './env.ts'

/** Proxies and browsers give up on a silent connection after about a minute. */
const silenceMs = 25_000

/** A screen that falls this far behind is cut off; it comes back and asks for everything anew. */
const mostWaiting = 1_000

/**
 * Server-sent events: what is new, as it happens. Before there is a studio the stream ends at once, and the browser comes
 * back by itself until there is one.
 * @see WHATWG HTML, section 9.2
 */
export function eventRoutes(happenings: Happenings, studioIdNow: () => Promise<string | undefined>) {
  return new Hono<ApiEnv>().get('/events', (c) =>
    streamSSE(c, async (stream) => {
      const studioId = await studioIdNow()
      const inbox = openInbox()
      // Before the greeting: what a screen loads when it hears that is complete together with what it is told from then on.
      const stopListening = studioId === undefined ? () => {} : happenings.listen(studioId, inbox.put)
      stream.onAbort(inbox.wake)
      try {
        await stream.writeSSE({ event: 'hello', data: '{}', retry: 2_000 })
        if (studioId !== undefined) await tellAll(stream, inbox)
      } finally {
        stopListening()
      }
    }),
  )
}

type Inbox = ReturnType<typeof openInbox>

function openInbox() {
  const waiting: Happening[] = []
  let wake = () => {}
  return {
    waiting,
    wake: () => wake(),
    put: (happening: Happening) => {
      waiting.push(happening)
      wake()
    },
    /** @returns true if nothing came in time */
    untilWoken: (limitMs: number): Promise<boolean> =>
      new Promise((resolve) => {
        const limit = setTimeout(() => resolve(true), limitMs)
        wake = () => {
          clearTimeout(limit)
          resolve(false)
        }
      }),
  }
}

async function tellAll(stream: SSEStreamingApi, { waiting, untilWoken }: Inbox): Promise<void> {
  while (!stream.aborted && waiting.length < mostWaiting) {
    for (const { kind, ...data } of waiting.splice(0))
      await stream.writeSSE({ event: kind, data: JSON.stringify(data) })
    if (waiting.length > 0 || stream.aborted) continue
    const isSilent = await untilWoken(silenceMs)
    if (isSilent) await stream.write(': still here\n\n')
  }
}
