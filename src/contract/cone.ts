/** Cones, by the number they carry. */
import { compareCones, cones } from '#core/firing/cones.ts'
import type { Cone } from '#core/firing/cones.ts'
import { oneOf } from './fields.ts'

/** "6" and "06" are two cones: the text counts, not the number. */
export const cone = (what: string) => oneOf(what, cones)

export const coneRangeFault = {
  path: ['coneHigh'],
  error: 'The highest cone must not be below the lowest; a leading zero counts (06 is far below 6)',
}

export const isConeRange = (range: { readonly coneLow: Cone; readonly coneHigh: Cone }): boolean =>
  compareCones(range.coneLow, range.coneHigh) <= 0
