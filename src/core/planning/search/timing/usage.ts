/** How much of a resource is taken, as steps in time: `amount[k]` from `time[k]` up to `time[k + 1]`. */
export type Usage = {
  readonly change: (startMin: number, endMin: number, amount: number) => void
  /** The first start >= `fromMin` at which `amount` fits for `durationMin`, or the first minute after `mostMin`. */
  readonly earliest: (fromMin: number, durationMin: number, amount: number, mostMin: number) => number
  /** The last start <= `fromMin` at which it fits, or the last minute before `leastMin`. */
  readonly latest: (fromMin: number, durationMin: number, amount: number, leastMin: number) => number
}

export function createUsage(capacity: number): Usage {
  const time: number[] = [-Infinity]
  const amounts: number[] = [0]

  /** The step that holds the minute. */
  const stepAt = (minute: number): number => {
    let low = 0
    let high = time.length - 1
    while (low < high) {
      const middle = (low + high + 1) >> 1
      if (time[middle]! <= minute) low = middle
      else high = middle - 1
    }
    return low
  }

  const splitAt = (minute: number): number => {
    const step = stepAt(minute)
    if (time[step] === minute) return step
    time.splice(step + 1, 0, minute)
    amounts.splice(step + 1, 0, amounts[step]!)
    return step + 1
  }

  const joinAt = (step: number): void => {
    if (step === 0 || amounts[step] !== amounts[step - 1]) return
    time.splice(step, 1)
    amounts.splice(step, 1)
  }

  return {
    change: (startMin, endMin, amount) => {
      const first = splitAt(startMin)
      const last = splitAt(endMin)
      for (let step = first; step < last; step++) amounts[step]! += amount
      joinAt(last)
      joinAt(first)
    },
    earliest: (fromMin, durationMin, amount, mostMin) => {
      let start = fromMin
      for (
        let step = stepAt(start);
        start <= mostMin && step < time.length && time[step]! < start + durationMin;
        step++
      ) {
        if (amounts[step]! + amount > capacity) start = time[step + 1] ?? Infinity
      }
      return Math.min(start, mostMin + 1)
    },
    latest: (fromMin, durationMin, amount, leastMin) => {
      let start = fromMin
      for (let step = stepAt(start + durationMin - 1); start >= leastMin && step >= 0; step--) {
        if ((time[step + 1] ?? Infinity) <= start) break
        if (amounts[step]! + amount > capacity) start = time[step]! - durationMin
      }
      return Math.max(start, leastMin - 1)
    },
  }
}
