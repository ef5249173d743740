/** A source of chance that is handed in, never taken: the same seed gives the same numbers on every machine. */
export type Rng = {
  /** Uniform in [0, 1), 32 bits fine. */
  readonly next: () => number
  /** Uniform whole number in [0, below). `below` >= 1. */
  readonly int: (below: number) => number
  /** Standard normal deviate. */
  readonly normal: () => number
}

/**
 * A small, fast generator of good quality for searches and draws (not for secrets).
 * @param seed any finite number; its 32 low bits count
 * @see Mulberry32 (T. Ettinger, 2017, public domain): passes gjrand at 4 GB. Normal deviates: Box & Muller (1958).
 */
export function seededRng(seed: number): Rng {
  let state = seed >>> 0
  let spareNormal: number | undefined
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let bits = state
    bits = Math.imul(bits ^ (bits >>> 15), bits | 1)
    bits ^= bits + Math.imul(bits ^ (bits >>> 7), bits | 61)
    return ((bits ^ (bits >>> 14)) >>> 0) / 4_294_967_296
  }
  const normal = (): number => {
    if (spareNormal !== undefined) {
      const value = spareNormal
      spareNormal = undefined
      return value
    }
    const radius = Math.sqrt(-2 * Math.log(1 - next()))
    const angle = 2 * Math.PI * next()
    spareNormal = radius * Math.sin(angle)
    return radius * Math.cos(angle)
  }
  return { next, int: (below) => Math.floor(next() * below), normal }
}

/** A 32-bit hash of a text, for seeds that must not hang on the order of calls. @see FNV-1a (Fowler, Noll, Vo) */
export function seedOf(text: string): number {
  let hash = 0x811c9dc5
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193)
  return hash >>> 0
}
