import type { Engine, QueuedPropagator } from './engine.ts'
import type { Linear } from './model.ts'

/**
 * Sums: costs, room in a kiln, exactly-one. Each term has what the others' least values leave:
 * s_i <= (limit - sum over j of w_j min s_j, j not i) / w_i. The slack of the rounding weakens the explanation.
 */
export function linearPropagator(engine: Engine, { terms, limit }: Linear): QueuedPropagator {
  const { value, raise, conflict } = engine
  const own = engine.propagators.length
  const sideOf = Int32Array.from(terms, ({ side }) => side)
  const weightOf = Float64Array.from(terms, ({ weight }) => weight)
  const count = terms.length

  const leastSum = (): number => {
    let sum = 0
    for (let i = 0; i < count; i++) sum += weightOf[i]! * value[sideOf[i]!]!
    return sum
  }

  /**
   * Pushes, for the terms other than `except`, values before `entry` that sum to more than `limit - needed`, each
   * weakened while there is slack, down to the value the side had at the beginning if that will do.
   */
  const explainSum = (except: number, needed: number, entry: number, out: number[]): void => {
    let slack = needed - limit - 1
    for (let i = 0; i < count; i++) if (i !== except) slack += weightOf[i]! * engine.valueBefore(sideOf[i]!, entry)
    for (let i = 0; i < count; i++) {
      if (i === except) continue
      const before = engine.valueBefore(sideOf[i]!, entry)
      const atRoot = engine.valueBefore(sideOf[i]!, engine.levelStarts[0] ?? 0)
      if (before <= atRoot) continue
      const weakened = Math.max(atRoot, before - Math.floor(slack / weightOf[i]!))
      slack -= (before - weakened) * weightOf[i]!
      if (weakened > atRoot) out.push(sideOf[i]!, weakened)
    }
  }

  return {
    wakingSides: terms.map(({ side }) => side),
    run: () => {
      const left = limit - leastSum()
      if (left < 0) {
        conflict.length = 0
        explainSum(-1, 0, engine.trail.length, conflict)
        return false
      }
      for (let i = 0; i < count; i++) {
        const side = sideOf[i]!
        const most = value[side]! + Math.floor(left / weightOf[i]!)
        if (most < -value[side ^ 1]! && !raise(side ^ 1, -most, own, i, 0)) return false
      }
      return true
    },
    explain: (_side, least, i, _b, entry, out) => {
      // The raise says s_i <= -least, so the others leave less than w_i * (1 - least).
      explainSum(i, weightOf[i]! * (1 - least), entry, out)
    },
  }
}
