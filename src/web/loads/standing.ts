/** Loads by how far they are: running, cooling, to come soon, later, and past. */
import type { FiringState } from '#core/logbook/state.ts'
import type { PlannedFiring } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'

export type Standing = 'running' | 'cooling' | 'loaded' | 'coming'

export type ShownLoad = {
  readonly firing: PlannedFiring
  /** null before it is loaded. */
  readonly logged: FiringState | null
  readonly standing: Standing
}

/** What is loaded after so long will be planned anew many times before. */
const SOON_FOR_MIN = 14 * MIN_PER_DAY

export type ShownLoads = {
  readonly running: readonly ShownLoad[]
  readonly cooling: readonly ShownLoad[]
  /** Those that are loaded already stand first. */
  readonly coming: readonly ShownLoad[]
  readonly later: readonly ShownLoad[]
  /** Emptied, the latest first. */
  readonly past: readonly FiringState[]
}

/** A load that was emptied since the plan was made is past, whatever the plan still says. */
export function loadsShown(
  planned: readonly PlannedFiring[],
  logged: readonly FiringState[],
  nowMin: Minute,
): ShownLoads {
  const known = new Map(logged.map((firing) => [firing.id, firing]))
  const shown = planned
    .toSorted((a, b) => a.loadMin - b.loadMin)
    .map((firing): ShownLoad => {
      const found = known.get(firing.id) ?? null
      return { firing, logged: found, standing: standingOf(firing, found, nowMin) }
    })
    .filter((load) => !load.logged || load.logged.unloadedMin === null)
  const those = (...standings: Standing[]) => shown.filter(({ standing }) => standings.includes(standing))
  const toCome = those('coming')
  const isSoon = ({ firing }: ShownLoad) => firing.loadMin < nowMin + SOON_FOR_MIN
  return {
    running: those('running'),
    cooling: those('cooling'),
    coming: [...those('loaded'), ...toCome.filter(isSoon)],
    later: toCome.filter((load) => !isSoon(load)),
    past: logged
      .filter(({ unloadedMin }) => unloadedMin !== null)
      .toSorted((a, b) => (b.unloadedMin ?? 0) - (a.unloadedMin ?? 0)),
  }
}

function standingOf({ shutOffMin }: PlannedFiring, logged: FiringState | null, nowMin: Minute): Standing {
  if (!logged) return 'coming'
  if (logged.firedMin === null) return 'loaded'
  return logged.openedMin === null && nowMin < shutOffMin ? 'running' : 'cooling'
}
