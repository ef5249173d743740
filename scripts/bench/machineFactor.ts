/** CPU seconds of the yardstick on the machine on which the bars were set. */
const YARDSTICK_S = 0.11

/**
 * How much slower than that machine this one is now: CPU time of fixed work of the kind the benchmarks do (exponentials,
 * table look-ups, short sums over typed arrays), median of a few.
 */
export function machineFactor(): number {
  const tries = Array.from({ length: 5 }, () => cpuSeconds(yardstick)).toSorted((a, b) => a - b)
  return tries[2]! / YARDSTICK_S
}

/** CPU seconds of one call on that machine: the factor is taken right before and right after, as neighbours come and go. */
export function fairSeconds(work: () => void): number {
  const before = machineFactor()
  const seconds = cpuSeconds(work)
  return seconds / ((before + machineFactor()) / 2)
}

/** CPU seconds, user and system, of one call. */
export function cpuSeconds(work: () => void): number {
  const before = process.cpuUsage()
  work()
  const { user, system } = process.cpuUsage(before)
  return (user + system) / 1e6
}

function yardstick(): void {
  const table = new Float64Array(4_096)
  let sum = 0
  for (let round = 0; round < 2_000; round++) {
    for (let i = 0; i < table.length; i++) table[i] = Math.exp(-(i + round) / 4_096) + table[(i * 7) & 4_095]! * 1e-3
    for (let i = 1; i < table.length; i++) sum += table[i]! / (1 + table[i - 1]!)
  }
  if (!Number.isFinite(sum)) throw new Error('the yardstick is broken')
}
