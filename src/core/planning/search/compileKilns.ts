import type { Indexed, IndexedKiln } from './indexed.ts'
import { addArc, addClause, isTrue, newVariable, not, type LinearTerm, type Literal } from './lcg/model.ts'
import type { Compiled, Scope, Seat, Truth } from './scope.ts'

/**
 * Kilns: slots are used from the first on and follow each other with their setups; a member takes exactly one seat,
 * starts with its slot, suits the slot's family, and the sizes in a slot stay within the kiln's room.
 * @see Lackner, Mrkvicka, Musliu, Walkiewicz, Winter (2023), Exact methods for the oven scheduling problem, Constraints 28
 */
export function compileKilns(indexed: Indexed, compiled: Compiled, scope: Scope): Seat[] {
  const seats = indexed.kilns.flatMap((kiln, index) => seatsOf(kiln, index, compiled, scope))
  compileSeats(compiled, seats)
  indexed.kilns.forEach((kiln, index) => {
    compileSequence(indexed, compiled, kiln, index)
    compileRoom(
      compiled,
      kiln,
      seats.filter((seat) => seat.kiln === index),
    )
    compileFamilies(
      indexed,
      compiled,
      kiln,
      seats.filter((seat) => seat.kiln === index),
    )
  })
  return seats
}

function seatsOf(
  kiln: IndexedKiln,
  index: number,
  { model, presence, choices }: Compiled,
  { incumbent }: Scope,
): Seat[] {
  return kiln.members.flatMap(({ task: member }) => {
    const isKept = incumbent !== undefined && incumbent.freedom[member] !== 'free'
    return kiln.slots.map((slot): Seat => {
      const seat = { kiln: index, member, slot }
      if (presence[member] === false || presence[slot] === false) return { ...seat, truth: false }
      if (isKept) return { ...seat, truth: incumbent.schedule.slot[member] === slot }
      const truth = isTrue(newVariable(model, 0, 1))
      choices.push(truth)
      return { ...seat, truth }
    })
  })
}

/** Exactly one seat for a member that is done, in a slot that is used, at its start. */
function compileSeats({ model, presence, all }: Compiled, seats: readonly Seat[]): void {
  for (const member of new Set(seats.map((seat) => seat.member))) {
    const own = seats.filter((seat) => seat.member === member)
    const open = own.flatMap(({ truth }) => (typeof truth === 'boolean' ? [] : [truth]))
    if (!own.some(({ truth }) => truth === true)) imply(model, [presence[member]!], open)
    if (open.length > 1) model.linears.push({ terms: open.map(({ side }) => ({ side, weight: 1 })), limit: 1 })
    for (const { slot, truth } of own) {
      if (truth === false) continue
      imply(model, [truth], [presence[slot]!])
      imply(model, [truth], [presence[member]!])
      const seated = all([truth])
      const condition = seated === true ? undefined : (seated as Literal)
      addArc(model, slot, 0, member, condition)
      addArc(model, member, 0, slot, condition)
    }
  }
}

/** If all of `when` hold, one of `then` does. */
function imply(model: Compiled['model'], when: readonly Truth[], then: readonly Truth[]): void {
  if (when.includes(false) || then.includes(true)) return
  const literals = (truths: readonly Truth[]) => truths.flatMap((truth) => (typeof truth === 'boolean' ? [] : [truth]))
  addClause(model, [...literals(when).map(not), ...literals(then)])
}

function compileSequence(
  { modes, problem }: Indexed,
  { model, presence, modeTruth, all }: Compiled,
  { slots }: IndexedKiln,
  index: number,
): void {
  const { setups } = problem.kilns![index]!
  slots.forEach((slot, at) => {
    const next = slots[at + 1]
    if (next === undefined) return
    imply(model, [presence[next]!], [presence[slot]!])
    modes[slot]!.forEach(({ durationMin }, from) => {
      modes[next]!.forEach((_, to) => {
        const condition = all([modeTruth[slot]![from]!, modeTruth[next]![to]!])
        if (condition === false) return
        const fromId = problem.tasks[slot]!.modes[from]!.id
        const toId = problem.tasks[next]!.modes[to]!.id
        const setup = setups?.find(({ fromFamilyId, toFamilyId }) => fromFamilyId === fromId && toFamilyId === toId)
        addArc(model, slot, durationMin + (setup?.minutes ?? 0), next, condition === true ? undefined : condition)
      })
    })
  })
}

function compileRoom({ model }: Compiled, { slots, room, members }: IndexedKiln, seats: readonly Seat[]): void {
  const sizeOf = new Map(members.map(({ task, size }) => [task, size]))
  for (const slot of slots) {
    room.forEach((limit, dimension) => {
      let left = limit
      const terms: LinearTerm[] = []
      for (const seat of seats) {
        const weight = sizeOf.get(seat.member)![dimension] ?? 0
        if (seat.slot !== slot || weight === 0) continue
        if (seat.truth === true) left -= weight
        else if (seat.truth !== false) terms.push({ side: seat.truth.side, weight })
      }
      if (terms.length > 0) model.linears.push({ terms, limit: left })
    })
  }
}

function compileFamilies(
  { problem }: Indexed,
  { model, modeTruth }: Compiled,
  { members }: IndexedKiln,
  seats: readonly Seat[],
): void {
  const familiesOf = new Map(members.map(({ task, families }) => [task, families]))
  for (const { member, slot, truth } of seats) {
    problem.tasks[slot]!.modes.forEach(({ id }, mode) => {
      if (!familiesOf.get(member)!.includes(id)) imply(model, [truth, modeTruth[slot]![mode]!], [])
    })
  }
}

/** What the changes of family cost: for each two firings in turn and each pair of families, if they are taken. */
export function setupCosts(
  { problem, taskOf }: Indexed,
  { model, modeTruth, all }: Compiled,
  kilnId: string,
  weight: number,
) {
  const kiln = problem.kilns?.find(({ id }) => id === kilnId)
  if (!kiln) throw new RangeError(`nothing is called ${kilnId}`)
  const terms: LinearTerm[] = []
  let constant = 0
  kiln.slotIds.forEach((slotId, at) => {
    const slot = taskOf.get(slotId)!
    const before = at === 0 ? undefined : taskOf.get(kiln.slotIds[at - 1]!)!
    for (const { fromFamilyId, toFamilyId, cost } of kiln.setups ?? []) {
      const to = modeTruth[slot]![problem.tasks[slot]!.modes.findIndex(({ id }) => id === toFamilyId)] ?? false
      const from =
        before === undefined
          ? fromFamilyId === kiln.initialFamilyId
          : (modeTruth[before]![problem.tasks[before]!.modes.findIndex(({ id }) => id === fromFamilyId)] ?? false)
      const changed = cost > 0 ? all([from, to]) : false
      if (changed === true) constant += weight * cost
      else if (changed !== false) {
        const paid = newVariable(model, 0, 1)
        imply(model, [changed], [isTrue(paid)])
        terms.push({ side: 2 * paid, weight: weight * cost })
      }
    }
  })
  return { terms, constant }
}
