import type { EagerPropagator, Engine } from './engine.ts'
import { groupedBy } from './groupedBy.ts'
import type { Model } from './model.ts'

/**
 * Lags under a condition: order of two tasks, choice of mode, presence. While the condition holds it is an arc; an arc
 * that cannot hold makes its condition false, because s_from >= ub + 1 - weight and s_to <= ub.
 */
export function conditionalArcPropagator(engine: Engine, { conditionalArcs }: Model): EagerPropagator {
  const { value, raise } = engine
  const own = engine.propagators.length
  // Each arc both ways: number 2k is arc k from `from` to `to`, 2k + 1 the other way round on the opposite sides.
  const count = 2 * conditionalArcs.length
  const fromOfArc = new Int32Array(count)
  conditionalArcs.forEach(({ from, to }, k) => {
    fromOfArc[2 * k] = from
    fromOfArc[2 * k + 1] = to ^ 1
  })
  const { first, order } = groupedBy(fromOfArc, value.length)
  const fromOf = new Int32Array(count)
  const weightOf = new Int32Array(count)
  const toOf = new Int32Array(count)
  const conditionSide = new Int32Array(count)
  const conditionLeast = new Int32Array(count)
  for (let i = 0; i < count; i++) {
    const arc = order[i]!
    const { from, weight, to, condition } = conditionalArcs[arc >> 1]!
    fromOf[i] = fromOfArc[arc]!
    weightOf[i] = weight
    toOf[i] = (arc & 1) === 0 ? to : from ^ 1
    conditionSide[i] = condition.side
    conditionLeast[i] = condition.least
  }
  const { first: firstOn, order: onCondition } = groupedBy(conditionSide, value.length)

  const followFrom = (side: number): boolean => {
    const now = value[side]!
    for (let i = first[side]!, end = first[side + 1]!; i < end; i++) {
      const to = toOf[i]!
      const least = now + weightOf[i]!
      if (value[to]! >= least) continue
      const condition = conditionSide[i]!
      const conditionLeastNow = conditionLeast[i]!
      if (value[condition]! >= conditionLeastNow) {
        if (!raise(to, least, own, i, 0)) return false
      } else if (value[to ^ 1]! >= 1 - least && value[condition ^ 1]! < 1 - conditionLeastNow) {
        if (!raise(condition ^ 1, 1 - conditionLeastNow, own, i, value[to ^ 1]!)) return false
      }
    }
    return true
  }

  const followCondition = (side: number): boolean => {
    const now = value[side]!
    for (let j = firstOn[side]!, end = firstOn[side + 1]!; j < end; j++) {
      const i = onCondition[j]!
      if (now < conditionLeast[i]!) continue
      const least = value[fromOf[i]!]! + weightOf[i]!
      if (value[toOf[i]!]! < least && !raise(toOf[i]!, least, own, i, 0)) return false
    }
    return true
  }

  return {
    onRaise: (side) => followFrom(side) && followCondition(side),
    explain: (side, least, i, oppositeAtTheTime, _entry, out) => {
      if (side === toOf[i]! && side !== (conditionSide[i]! ^ 1)) {
        out.push(conditionSide[i]!, conditionLeast[i]!, fromOf[i]!, least - weightOf[i]!)
      } else {
        out.push(fromOf[i]!, 1 - oppositeAtTheTime - weightOf[i]!, toOf[i]! ^ 1, oppositeAtTheTime)
      }
    },
  }
}
