import type { Interval } from '../../time.ts'
import { nextAllowed } from './compileResources.ts'
import type { Indexed, IndexedKiln } from './indexed.ts'
import { addArc, addClause, isTrue, newVariable, not, type LinearTerm, type Literal } from './lcg/model.ts'
import type { Compiled, Truth } from './scope.ts'

/** Firings of a kiln follow each other, with the set-ups between them; each lies in the kiln's hours with its own. */
export function compileSetups(indexed: Indexed, compiled: Compiled, kiln: IndexedKiln, index: number): void {
  const classes = kiln.slots.map((slot) => classTruths(indexed, compiled, kiln, slot))
  kiln.slots.forEach((slot, at) => {
    if (at > 0) compileTurn(indexed, compiled, kiln, kiln.slots[at - 1]!, slot, classes[at]!)
    if (!kiln.hours) return
    const before = at > 0 ? classes[at - 1]! : initialClass(indexed, kiln, index)
    compileHours(indexed, compiled, kiln, kiln.hours, slot, before)
  })
}

/** By class of families: that the slot is fired in one of it. */
type ClassTruths = readonly Truth[]

function classTruths(
  { problem }: Indexed,
  { model, modeTruth }: Compiled,
  { families }: IndexedKiln,
  slot: number,
): ClassTruths {
  const ofClass: Truth[][] = Array.from({ length: families.classCount }, () => [])
  problem.tasks[slot]!.modes.forEach(({ id }, mode) => ofClass[families.classOf(id)]!.push(modeTruth[slot]![mode]!))
  return ofClass.map((truths) => {
    if (truths.includes(true)) return true
    const open = truths.filter((truth) => typeof truth !== 'boolean')
    if (open.length <= 1) return open[0] ?? false
    const some = isTrue(newVariable(model, 0, 1))
    for (const each of open) addClause(model, [not(each), some])
    addClause(model, [not(some), ...open])
    return some
  })
}

function initialClass({ problem }: Indexed, { families }: IndexedKiln, index: number): ClassTruths {
  const { initialFamilyId } = problem.kilns![index]!
  return Array.from(
    { length: families.classCount },
    (_, each) => initialFamilyId !== undefined && families.classOf(initialFamilyId) === each,
  )
}

function compileTurn(
  { modes, problem }: Indexed,
  { model, presence, modeTruth, all }: Compiled,
  { families }: IndexedKiln,
  slot: number,
  next: number,
  classesOfNext: ClassTruths,
): void {
  const add = (weight: number, truths: readonly Truth[]): void => {
    const condition = all(truths)
    if (condition !== false) addArc(model, slot, weight, next, condition === true ? undefined : condition)
  }
  modes[slot]!.forEach(({ durationMin }, mode) => {
    const from = families.classOf(problem.tasks[slot]!.modes[mode]!.id)
    const minutes = classesOfNext.map((_, to) => families.setupBetween(from, to)?.minutes ?? 0)
    const least = Math.min(...minutes)
    add(durationMin + least, [modeTruth[slot]![mode]!, presence[next]!])
    minutes.forEach((setupMin, to) => {
      if (setupMin > least) add(durationMin + setupMin, [modeTruth[slot]![mode]!, classesOfNext[to]!])
    })
  })
}

function compileHours(
  { modes, problem }: Indexed,
  { model, modeTruth, all }: Compiled,
  { families }: IndexedKiln,
  hours: readonly Interval[],
  slot: number,
  classesBefore: ClassTruths,
): void {
  modes[slot]!.forEach(({ durationMin }, mode) => {
    const to = families.classOf(problem.tasks[slot]!.modes[mode]!.id)
    const minutesOf = (from: number) => families.setupBetween(from, to)?.minutes ?? 0
    const possible = classesBefore.flatMap((truth, from) => (truth === false ? [] : [minutesOf(from)]))
    const least = possible.length === 0 ? 0 : Math.min(...possible)
    const add = (setupMin: number, truths: readonly Truth[]): void => {
      const condition = all(truths)
      if (condition === false) return
      const starts = hours
        .map(({ startMin, endMin }) => ({ startMin: startMin + setupMin, endMin: endMin - durationMin + 1 }))
        .filter(({ startMin, endMin }) => startMin < endMin)
      if (starts.length === 0) addClause(model, condition === true ? [] : [not(condition)])
      else {
        const steps = nextAllowed(starts)
        model.monotones.push({
          from: slot,
          to: slot,
          bound: 'at-least',
          steps,
          ...(condition === true ? {} : { condition }),
        })
      }
    }
    add(least, [modeTruth[slot]![mode]!])
    classesBefore.forEach((truth, from) => {
      if (minutesOf(from) > least) add(minutesOf(from), [modeTruth[slot]![mode]!, truth])
    })
  })
}

/** What the changes of family cost: for each two firings in turn and each pair of classes, if they are taken. */
export function setupCosts(
  indexed: Indexed,
  compiled: Compiled,
  kilnId: string,
  weight: number,
): { readonly terms: readonly LinearTerm[]; readonly constant: number } {
  const { model, all } = compiled
  const index = indexed.problem.kilns?.findIndex(({ id }) => id === kilnId) ?? -1
  const kiln = indexed.kilns[index]
  if (!kiln) throw new RangeError(`nothing is called ${kilnId}`)
  const terms: LinearTerm[] = []
  let constant = 0
  let before = initialClass(indexed, kiln, index)
  for (const slot of kiln.slots) {
    const classes = classTruths(indexed, compiled, kiln, slot)
    before.forEach((from, fromClass) => {
      classes.forEach((to, toClass) => {
        const cost = kiln.families.setupBetween(fromClass, toClass)?.cost ?? 0
        const changed = cost > 0 ? all([from, to]) : false
        if (changed === true) constant += weight * cost
        else if (changed !== false) {
          const paid = newVariable(model, 0, 1)
          addClause(model, [not(changed as Literal), isTrue(paid)])
          terms.push({ side: 2 * paid, weight: weight * cost })
        }
      })
    })
    before = classes
  }
  return { terms, constant }
}
