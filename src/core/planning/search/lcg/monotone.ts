import type { EagerPropagator, Engine } from './engine.ts'
import { groupedBy } from './groupedBy.ts'
import type { Literal, Monotone } from './model.ts'
import { firstAtLeast, lastAtMost, valueAt } from './stepFunction.ts'

/**
 * Working hours and windows. `at-least`: lower bounds pass through f forwards, upper bounds backwards
 * (x_from <= greatest x with f(x) <= ub of x_to); `at-most` the other way round. With from = to it keeps a task out of
 * the holes of its calendar. Every explanation is the weakest bound that f maps far enough.
 */
export function monotonePropagator(engine: Engine, monotones: readonly Monotone[]): EagerPropagator {
  const { value, raise } = engine
  const own = engine.propagators.length
  const links = monotones.flatMap(linksOf)
  const bySource = groupedBy(
    links.map(({ source }) => source),
    value.length,
  )
  const conditional = links.flatMap((link, index) => (link.condition ? [index] : []))
  const byCondition = groupedBy(
    conditional.map((index) => links[index]!.condition!.side),
    value.length,
  )

  const follow = (index: number): boolean => {
    const { source, target, condition, map } = links[index]!
    const least = map(value[source]!)
    if (value[target]! >= least) return true
    if (!condition || value[condition.side]! >= condition.least) return raise(target, least, own, index, 0)
    if (value[target ^ 1]! < 1 - least) return true
    return raise(condition.side ^ 1, 1 - condition.least, own, index, value[target ^ 1]!)
  }

  return {
    onRaise: (side) => {
      for (let i = bySource.first[side]!; i < bySource.first[side + 1]!; i++) {
        if (!follow(bySource.order[i]!)) return false
      }
      for (let i = byCondition.first[side]!; i < byCondition.first[side + 1]!; i++) {
        const index = conditional[byCondition.order[i]!]!
        if (value[side]! >= links[index]!.condition!.least && !follow(index)) return false
      }
      return true
    },
    explain: (side, least, index, oppositeAtTheTime, _entry, out) => {
      const { source, target, condition, weakestFor } = links[index]!
      if (condition && side === (condition.side ^ 1) && side !== target) {
        out.push(source, weakestFor(1 - oppositeAtTheTime), target ^ 1, oppositeAtTheTime)
        return
      }
      out.push(source, weakestFor(least))
      if (condition) out.push(condition.side, condition.least)
    },
  }
}

/** One direction of a monotone arc, on sides: s_target >= map(s_source). */
type Link = {
  readonly source: number
  readonly target: number
  readonly condition: Literal | undefined
  readonly map: (now: number) => number
  /** The least s_source that maps to at least so much. */
  readonly weakestFor: (least: number) => number
}

function linksOf({ from, to, bound, steps, condition }: Monotone): Link[] {
  const lowerFrom = { source: 2 * from, target: 2 * to, condition }
  const upperFrom = { source: 2 * from + 1, target: 2 * to + 1, condition }
  const lowerTo = { source: 2 * to, target: 2 * from, condition }
  const upperTo = { source: 2 * to + 1, target: 2 * from + 1, condition }
  return bound === 'at-least'
    ? [
        { ...lowerFrom, map: (x) => valueAt(steps, x), weakestFor: (k) => firstAtLeast(steps, k) },
        // x_from <= lastAtMost(ub); for x_from <= m the bound on x_to needed is f(m + 1) - 1.
        { ...upperTo, map: (s) => -lastAtMost(steps, -s), weakestFor: (k) => 1 - valueAt(steps, 1 - k) },
      ]
    : [
        { ...upperFrom, map: (s) => -valueAt(steps, -s), weakestFor: (k) => -lastAtMost(steps, -k) },
        { ...lowerTo, map: (x) => firstAtLeast(steps, x), weakestFor: (k) => valueAt(steps, k - 1) + 1 },
      ]
}
