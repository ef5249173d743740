import { times } from './clay.ts'
import type { CoverKind, Uncertain } from './types.ts'

/**
 * What a cover lets through, kg/(m2 s Pa): intact film passes next to nothing, so these are leaks. Films are published,
 * leaks are assumptions good to a factor of 4 (evenly within it: 0.8 on the logarithm) until a studio has learned its own.
 * `open` and `damp cupboard` put nothing between ware and air.
 */
export const defaultPermeance: Readonly<Record<CoverKind, Uncertain>> = {
  open: times(Infinity, 0),
  cloth: times(1e-8, 0.45),
  loose: times(4e-9, 0.8),
  tucked: times(2e-10, 0.8),
  sealed: times(5e-11, 0.8),
  'damp cupboard': times(Infinity, 0),
}

export const coverKinds: readonly CoverKind[] = ['open', 'cloth', 'loose', 'tucked', 'sealed', 'damp cupboard']
