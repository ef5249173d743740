import { times, within } from './clay.ts'
import type { CoverKind, Uncertain } from './types.ts'

const LEAKS_WITHIN = 4

/**
 * What a cover lets through, kg/(m2 s Pa): intact film passes next to nothing, so these are leaks. Films are published,
 * leaks are assumptions, good to a factor of four either way, until a studio has learned its own. Of such a range no
 * part is likelier than another (maximum entropy). `open` and `damp cupboard` put nothing between ware and air.
 */
export const defaultPermeance: Readonly<Record<CoverKind, Uncertain>> = {
  open: times(Infinity, 0),
  cloth: within(1e-8, LEAKS_WITHIN),
  loose: within(4e-9, LEAKS_WITHIN),
  tucked: within(2e-10, LEAKS_WITHIN),
  sealed: within(5e-11, LEAKS_WITHIN),
  'damp cupboard': times(Infinity, 0),
}

export const coverKinds: readonly CoverKind[] = ['open', 'cloth', 'loose', 'tucked', 'sealed', 'damp cupboard']

/**
 * How leaks of different covers go together, as a correlation of scores: the same hands lay and tuck them all, in the
 * same draughts. Assumption. Were they drawn apart, spans under covers that change would hold three points less than
 * they say wherever one factor moves all leaks (measured on draws of the model's own world).
 */
export const LEAKS_ALIKE = 0.8

export const leakyKinds: readonly CoverKind[] = coverKinds.filter((cover) => defaultPermeance[cover].spread > 0)
