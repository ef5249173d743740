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
  compileSeats(indexed, compiled, seats)
  const byKiln = gathered(seats, ({ kiln }) => kiln)
  indexed.kilns.forEach((kiln, index) => {
    const own = byKiln.get(index) ?? []
    compileUse(compiled, kiln)
    compileSetups(indexed, compiled, kiln, index)
    compileRoom(compiled, kiln, own)
    compileFamilies(indexed, compiled, kiln, own)
  })
  return seats
}

/** Seats that may be taken; where it is known that one is not, there is none. */
function seatsOf(
  kiln: IndexedKiln,
  index: number,
  { model, presence, choices }: Compiled,
  { incumbent }: Scope,
): Seat[] {
  const slots = kiln.slots.filter((slot) => presence[slot] !== false)
  return kiln.members.flatMap(({ task: member }): Seat[] => {
    if (presence[member] === false) return []
    if (incumbent !== undefined && incumbent.freedom[member] !== 'free') {
      const slot = incumbent.schedule.slot[member]!
      return slots.includes(slot) ? [{ kiln: index, member, slot, truth: true }] : []
    }
    return slots.map((slot): Seat => {
      const truth = isTrue(newVariable(model, 0, 1))
      choices.push(truth)
      return { kiln: index, member, slot, truth }
    })
  })
}

/** Exactly one seat for a member that is done, in a slot that is used, at its start. */
function compileSeats({ kilns }: Indexed, { model, presence, all }: Compiled, seats: readonly Seat[]): void {
  const byMember = gathered(seats, ({ member }) => member)
  for (const member of new Set(kilns.flatMap(({ members }) => members.map(({ task }) => task)))) {
    const own = byMember.get(member) ?? []
    const open = own.flatMap(({ truth }) => (typeof truth === 'boolean' ? [] : [truth]))
    if (!own.some(({ truth }) => truth === true)) imply(model, [presence[member]!], open)
    if (open.length > 1) model.linears.push({ terms: open.map(({ side }) => ({ side, weight: 1 })), limit: 1 })
    for (const { slot, truth } of own) {
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

function compileRoom({ model }: Compiled, { room, members }: IndexedKiln, seats: readonly Seat[]): void {
  const sizeOf = new Map(members.map(({ task, size }) => [task, size]))
  for (const inSlot of gathered(seats, ({ slot }) => slot).values()) {
    room.forEach((limit, dimension) => {
      let left = limit
      const terms: LinearTerm[] = []
      for (const { member, truth } of inSlot) {
        const weight = sizeOf.get(member)![dimension] ?? 0
        if (weight === 0) continue
        if (truth === true) left -= weight
        else if (truth !== false) terms.push({ side: truth.side, weight })
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

function gathered(seats: readonly Seat[], keyOf: (seat: Seat) => number): Map<number, Seat[]> {
  const byKey = new Map<number, Seat[]>()
  for (const seat of seats) {
    const own = byKey.get(keyOf(seat))
    if (own) own.push(seat)
    else byKey.set(keyOf(seat), [seat])
  }
  return byKey
}
