import { compileSetups } from './compileSetups.ts'
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
    compileUse(compiled, kiln)
    compileSetups(indexed, compiled, kiln, index)
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

/** Slots are used from the first on. */
function compileUse({ model, presence }: Compiled, { slots }: IndexedKiln): void {
  slots.forEach((slot, at) => {
    if (at > 0) imply(model, [presence[slot]!], [presence[slots[at - 1]!]!])
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

/** A member suits the family of its firing and, of several modes, is done in the one that is called so. */
function compileFamilies(
  { problem }: Indexed,
  { model, modeTruth }: Compiled,
  { members }: IndexedKiln,
  seats: readonly Seat[],
): void {
  const familiesOf = new Map(members.map(({ task, families }) => [task, families]))
  for (const { member, slot, truth } of seats) {
    if (truth === false) continue
    const own = problem.tasks[member]!.modes
    problem.tasks[slot]!.modes.forEach(({ id }, mode) => {
      const taken = modeTruth[slot]![mode]!
      if (!familiesOf.get(member)!.includes(id)) imply(model, [truth, taken], [])
      else if (own.length > 1) {
        const called = own.findIndex((one) => one.id === id)
        imply(model, [truth, taken], [modeTruth[member]![called] ?? false])
      }
    })
  }
}
