import { times } from './clay.ts'
import type { CoverKind, Uncertain } from './types.ts'

/** Spread of a leak that lies above so many times its value once in twenty. */
const atMostTimes = (factor: number): number => Math.log(factor) / 1.645

/**
 * What a cover lets through, kg/(m2 s Pa): intact film passes next to nothing, so these are leaks. Films are published,
 * leaks are assumptions until a studio has learned its own: cloth may leak three times, sheets and tucks four times as
 * much as meant. `open` and `damp cupboard` put nothing between ware and air.
 */
export const defaultPermeance: Readonly<Record<CoverKind, Uncertain>> = {
  open: times(Infinity, 0),
  cloth: times(1e-8, atMostTimes(3)),
  loose: times(4e-9, atMostTimes(4)),
  tucked: times(2e-10, atMostTimes(4)),
  sealed: times(5e-11, atMostTimes(4)),
  'damp cupboard': times(Infinity, 0),
}

export const coverKinds: readonly CoverKind[] = ['open', 'cloth', 'loose', 'tucked', 'sealed', 'damp cupboard']
