/**
 * Which clauses watch which literal. By side the literals lie in rising order of the value at which they become false,
 * so that a side that rises meets the watches of those literals alone that its rise makes false: bounds rise often, and
 * a side may be watched at hundreds of values.
 */
export type Watches = {
  /** By side: the distinct values, rising, from which on a watched literal "value of the other side" is false. */
  readonly falseFrom: readonly number[][]
  /** Beside `falseFrom`: watches end to end, each `WATCH` numbers: clause, side and least of another of its literals. */
  readonly lists: readonly number[][][]
  /** The literal "side >= least" is watched by the clause. */
  readonly add: (side: number, least: number, clause: number, otherSide: number, otherLeast: number) => void
  readonly clear: () => void
}

export const WATCH = 3

export function createWatches(sideCount: number): Watches {
  // Most sides of a small model are never watched: they share one empty list.
  const nothing: never[] = []
  const falseFrom: number[][] = Array.from({ length: sideCount }, () => nothing)
  const lists: number[][][] = falseFrom.slice() as never[][]
  return {
    falseFrom,
    lists,
    add: (side, least, clause, otherSide, otherLeast) => {
      const watched = side ^ 1
      if (falseFrom[watched] === nothing) {
        falseFrom[watched] = [1 - least]
        lists[watched] = [[clause, otherSide, otherLeast]]
        return
      }
      const values = falseFrom[watched]!
      const at = firstFrom(values, 1 - least)
      if (values[at] === 1 - least) lists[watched]![at]!.push(clause, otherSide, otherLeast)
      else {
        values.splice(at, 0, 1 - least)
        lists[watched]!.splice(at, 0, [clause, otherSide, otherLeast])
      }
    },
    clear: () => {
      falseFrom.fill(nothing)
      lists.fill(nothing)
    },
  }
}

/** The index of the first of the rising values that is at least so much. */
export function firstFrom(values: readonly number[], least: number): number {
  let low = 0
  let high = values.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (values[middle]! < least) low = middle + 1
    else high = middle
  }
  return low
}
