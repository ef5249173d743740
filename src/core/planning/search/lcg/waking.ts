import type { QueuedPropagator } from './engine.ts'
import { groupedBy } from './groupedBy.ts'

/** The propagators that wait to be run, each once, in the order in which they were woken. */
export type Waking = {
  /** The side rose: whoever reads it waits. */
  readonly wake: (side: number) => void
  /** Takes out the first. @returns its index, or -1 */
  readonly next: () => number
  readonly clear: () => void
}

/** At first all wait. */
export function createWaking(queued: readonly QueuedPropagator[], sideCount: number): Waking {
  const count = queued.length
  const { first, order } = groupedBy(
    queued.flatMap(({ wakingSides }) => wakingSides),
    sideCount,
  )
  const ownerOf = queued.flatMap(({ wakingSides }, index) => wakingSides.map(() => index))
  const reader = order.map((i) => ownerOf[i]!)
  const isWaiting = new Uint8Array(count).fill(1)
  // A ring: at most all of them wait.
  const ring = Int32Array.from(queued.keys())
  let head = 0
  let length = count

  return {
    wake: (side) => {
      for (let i = first[side]!, end = first[side + 1]!; i < end; i++) {
        const index = reader[i]!
        if (isWaiting[index] === 1) continue
        isWaiting[index] = 1
        const at = head + length++
        ring[at < count ? at : at - count] = index
      }
    },
    next: () => {
      if (length === 0) return -1
      const index = ring[head]!
      if (++head === count) head = 0
      length--
      isWaiting[index] = 0
      return index
    },
    clear: () => {
      isWaiting.fill(0)
      length = 0
    },
  }
}
