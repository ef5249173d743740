import type { EagerPropagator, Engine } from './engine.ts'
import { groupedBy } from './groupedBy.ts'
import type { Model } from './model.ts'

/** Lags: s_to >= s_from + weight, and the other way round -s_from >= -s_to + weight. */
export function arcPropagator(engine: Engine, { arcs }: Model): EagerPropagator {
  const { value, raise } = engine
  const own = engine.propagators.length
  // Each arc both ways: number 2k is arc k from `from` to `to`, 2k + 1 the other way round on the opposite sides.
  const fromOf = new Int32Array(2 * arcs.length)
  arcs.forEach(({ from, to }, k) => {
    fromOf[2 * k] = from
    fromOf[2 * k + 1] = to ^ 1
  })
  const { first, order } = groupedBy(fromOf, value.length)
  const toOf = new Int32Array(order.length)
  const weightOf = new Int32Array(order.length)
  order.forEach((arc, i) => {
    const { from, weight, to } = arcs[arc >> 1]!
    toOf[i] = (arc & 1) === 0 ? to : from ^ 1
    weightOf[i] = weight
  })

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
