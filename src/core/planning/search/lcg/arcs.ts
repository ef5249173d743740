import type { Engine, Propagator } from './engine.ts'
import { groupedBy } from './groupedBy.ts'
import type { Model } from './model.ts'

/** Lags: s_to >= s_from + weight, and the other way round -s_from >= -s_to + weight. */
export function arcPropagator(engine: Engine, { arcs }: Model): Propagator {
  const { value, raise } = engine
  const own = engine.propagators.length
  const both = arcs.flatMap(({ from, weight, to }) => [
    { from, weight, to },
    { from: to ^ 1, weight, to: from ^ 1 },
  ])
  const { first, order } = groupedBy(
    both.map((arc) => arc.from),
    value.length,
  )
  const toOf = Int32Array.from(order, (i) => both[i]!.to)
  const weightOf = Int32Array.from(order, (i) => both[i]!.weight)

  return {
    onRaise: (side) => {
      const now = value[side]!
      for (let i = first[side]!, end = first[side + 1]!; i < end; i++) {
        const least = now + weightOf[i]!
        if (value[toOf[i]!]! < least && !raise(toOf[i]!, least, own, side, weightOf[i]!)) return false
      }
      return true
    },
    explain: (_side, least, from, weight, _entry, out) => {
      out.push(from, least - weight)
    },
  }
}
