/** Variables by how often conflicts rested on them lately; the most active first. */
export type ActivityHeap = {
  readonly bump: (variable: number) => void
  /** Later bumps count for more. */
  readonly decay: () => void
  /** Puts a variable (back) in. */
  readonly put: (variable: number) => void
  /** Takes out variables until one passes the test, which stays in. @returns it, or -1 */
  readonly mostActive: (test: (variable: number) => boolean) => number
}

/** Binary heap. @see Moskewicz et al. (2001), Chaff (activities); Eén & Sörensson (2003), MiniSat (decay by increment) */
export function createActivityHeap(count: number): ActivityHeap {
  const activity = new Float64Array(count)
  const heap = Int32Array.from({ length: count }, (_, variable) => variable)
  const place = Int32Array.from(heap)
  let size = count
  let increment = 1

  const set = (at: number, variable: number): void => {
    heap[at] = variable
    place[variable] = at
  }

  const moveUp = (from: number): void => {
    const variable = heap[from]!
    let at = from
    for (; at > 0;) {
      const parent = (at - 1) >> 1
      if (activity[heap[parent]!]! >= activity[variable]!) break
      set(at, heap[parent]!)
      at = parent
    }
    set(at, variable)
  }

  const moveDown = (variable: number): void => {
    let at = 0
    for (let child = 1; child < size; child = 2 * at + 1) {
      if (child + 1 < size && activity[heap[child + 1]!]! > activity[heap[child]!]!) child++
      if (activity[heap[child]!]! <= activity[variable]!) break
      set(at, heap[child]!)
      at = child
    }
    set(at, variable)
  }

  return {
    bump: (variable) => {
      activity[variable]! += increment
      if (activity[variable]! > 1e100) {
        for (let i = 0; i < count; i++) activity[i]! *= 1e-100
        increment *= 1e-100
      }
      if (place[variable]! >= 0) moveUp(place[variable]!)
    },
    decay: () => {
      increment /= 0.95
    },
    put: (variable) => {
      if (place[variable]! >= 0) return
      set(size++, variable)
      moveUp(size - 1)
    },
    mostActive: (test) => {
      while (size > 0) {
        const top = heap[0]!
        if (test(top)) return top
        place[top] = -1
        const last = heap[--size]!
        if (size > 0) moveDown(last)
      }
      return -1
    },
  }
}
