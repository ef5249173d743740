import type { Rng } from '#core/rng.ts'
import { bundlesFor } from './bundles.ts'
import type { LoadedKiln } from './manyLoads.ts'
import type { LoadItem, LoadKind } from './types.ts'
import { placeUnit, unitsOf, type Unit } from './units.ts'

/**
 * Fillers where room is left in the loads of one kiln after another: sets whole, the more urgent first.
 * @returns keys of those for which none was left
 */
export function withFillers(
  kilns: readonly LoadedKiln[],
  fillers: readonly LoadItem[],
  kind: LoadKind,
  rng: Rng,
): string[] {
  let rest = fillers
  for (const kiln of kilns) {
    const suited = rest.filter(({ key }) => !kiln.whyNot.has(key))
    const inside = new Set<string>()
    const units = unitsOf(bundlesFor(suited, kiln.packing.plan.kiln, kind, 'apart'))
    for (const unit of units.sort((a, b) => b.urgency - a.urgency || b.wareMm3 - a.wareMm3)) {
      if (placeInAny(kiln, unit, rng)) for (const key of keysOf(unit)) inside.add(key)
    }
    rest = rest.filter(({ key }) => !inside.has(key))
  }
  return rest.map(({ key }) => key)
}

function placeInAny(kiln: LoadedKiln, unit: Unit, rng: Rng): boolean {
  for (let i = 0; i < kiln.layouts.length; i++) {
    const next = placeUnit(kiln.packing, kiln.layouts[i]!, unit, rng)
    if (next === undefined) continue
    kiln.layouts[i] = next
    return true
  }
  return false
}

const keysOf = ({ bundles }: Unit): string[] => bundles.flatMap(({ members }) => members.map(({ item }) => item.key))
