/** The present minute, told anew as it passes. */
import { useSyncExternalStore } from 'react'
import type { Minute } from '#core/time.ts'

const minuteNow = (): Minute => Math.floor(Date.now() / 60_000)

function listen(listener: () => void): () => void {
  const timer = setInterval(listener, 5_000)
  return () => clearInterval(timer)
}

export const useNowMin = (): Minute => useSyncExternalStore(listen, minuteNow)
