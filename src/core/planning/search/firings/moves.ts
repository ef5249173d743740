import type { Rng } from '../../../rng.ts'
import { makeFiring, type Firing } from './firing.ts'
import type { Floor } from './floor.ts'
import type { Line } from './line.ts'

/** Where everything is: by kiln its line, and by member its kiln (-1: left out). */
export type Arrangement = {
  readonly floor: Floor
  readonly lines: readonly Line[]
  readonly kilnOf: readonly number[]
}

/** Firings in turn for one or two kilns, and a member that is left out or no longer. */
export type Change = {
  readonly lines: readonly { readonly kiln: number; readonly firings: readonly Firing[] }[]
  readonly leaves?: number
  readonly comes?: number
}

/** A way to change an arrangement: one function and one line in the list each. */
export type Move = (arrangement: Arrangement, rng: Rng) => Change | undefined

/** @see Lackner, Mrkvicka, Musliu, Walkiewicz, Winter (2023): moves of jobs and batches between machines and positions */
export const moves: readonly { readonly move: Move; readonly share: number }[] = [
  { move: moveMember, share: 6 },
  { move: memberAlone, share: 3 },
  { move: swapMembers, share: 4 },
  { move: moveFiring, share: 3 },
  { move: swapNeighbours, share: 2 },
  { move: mergeFirings, share: 1 },
  { move: splitFiring, share: 1 },
  { move: otherMode, share: 0.5 },
  { move: leaveOut, share: 0.5 },
]

const one = <Thing>(things: readonly Thing[], rng: Rng): Thing | undefined =>
  things.length === 0 ? undefined : things[rng.int(things.length)]

const placeOf = ({ lines, kilnOf }: Arrangement, member: number): number => {
  const line = lines[kilnOf[member]!]
  return line ? line.firings.findIndex(({ members }) => members.includes(member)) : -1
}

/** A kiln the member may be fired in. */
function kilnFor({ floor }: Arrangement, member: number, rng: Rng): number {
  const { inKiln } = floor.members[member]!
  const open = inKiln.flatMap((fit, at) => (fit ? [at] : []))
  return open[rng.int(open.length)]!
}

/** The firings with some replaced (by nothing, to take them out) and one put in. */
function changed(
  firings: readonly Firing[],
  replaced: ReadonlyMap<number, Firing | undefined>,
  put?: { readonly firing: Firing; readonly before: number },
): Firing[] {
  const next: Firing[] = []
  for (let k = 0; k <= firings.length; k++) {
    if (put && put.before === k) next.push(put.firing)
    const firing = replaced.has(k) ? replaced.get(k) : firings[k]
    if (firing) next.push(firing)
  }
  return next
}

/** The firing without the member: another, or none if it was alone; `false` if what is left does not suit. */
function without(floor: Floor, kiln: number, firing: Firing, member: number): Firing | undefined | false {
  const left = firing.members.filter((each) => each !== member)
  return left.length === 0 ? undefined : (makeFiring(floor, kiln, left) ?? false)
}

type Edit = {
  readonly replaced: Map<number, Firing | undefined>
  put?: { readonly firing: Firing; readonly before: number }
}

/** Collects what changes by kiln. */
function changeOf({ lines }: Arrangement, edits: ReadonlyMap<number, Edit>): Change['lines'] {
  return [...edits].map(([kiln, { replaced, put }]) => ({
    kiln,
    firings: changed(lines[kiln]!.firings, replaced, put),
  }))
}

const editOf = (edits: Map<number, Edit>, kiln: number): Edit => {
  const edit = edits.get(kiln) ?? { replaced: new Map<number, Firing | undefined>() }
  edits.set(kiln, edit)
  return edit
}

/** Takes the member out of where it is. @returns false if that cannot be */
function takeOut(arrangement: Arrangement, member: number, edits: Map<number, Edit>): boolean {
  const { floor, lines, kilnOf } = arrangement
  const from = kilnOf[member]!
  if (from < 0) return true
  const place = placeOf(arrangement, member)
  const left = without(floor, from, lines[from]!.firings[place]!, member)
  if (left === false) return false
  editOf(edits, from).replaced.set(place, left)
  return true
}

function moveMember(arrangement: Arrangement, rng: Rng): Change | undefined {
  const { floor, lines, kilnOf } = arrangement
  const member = rng.int(floor.members.length)
  const kiln = kilnFor(arrangement, member, rng)
  const { firings } = lines[kiln]!
  if (firings.length === 0) return undefined
  const place = rng.int(firings.length)
  if (firings[place]!.members.includes(member)) return undefined
  const joined = makeFiring(floor, kiln, [...firings[place]!.members, member])
  if (!joined) return undefined
  const edits = new Map<number, Edit>()
  editOf(edits, kiln).replaced.set(place, joined)
  if (!takeOut(arrangement, member, edits)) return undefined
  return { lines: changeOf(arrangement, edits), ...(kilnOf[member]! < 0 ? { comes: member } : {}) }
}

function memberAlone(arrangement: Arrangement, rng: Rng): Change | undefined {
  const { floor, lines, kilnOf } = arrangement
  const member = rng.int(floor.members.length)
  const kiln = kilnFor(arrangement, member, rng)
  const alone = makeFiring(floor, kiln, [member])
  if (!alone) return undefined
  const edits = new Map<number, Edit>()
  editOf(edits, kiln).put = { firing: alone, before: rng.int(lines[kiln]!.firings.length + 1) }
  if (!takeOut(arrangement, member, edits)) return undefined
  return { lines: changeOf(arrangement, edits), ...(kilnOf[member]! < 0 ? { comes: member } : {}) }
}

function swapMembers(arrangement: Arrangement, rng: Rng): Change | undefined {
  const { floor, lines, kilnOf } = arrangement
  const [a, b] = [rng.int(floor.members.length), rng.int(floor.members.length)]
  const [kilnA, kilnB] = [kilnOf[a]!, kilnOf[b]!]
  if (kilnA < 0 || kilnB < 0) return undefined
  const [placeA, placeB] = [placeOf(arrangement, a), placeOf(arrangement, b)]
  if (kilnA === kilnB && placeA === placeB) return undefined
  const swapped = (kiln: number, place: number, out: number, into: number) =>
    makeFiring(
      floor,
      kiln,
      lines[kiln]!.firings[place]!.members.map((member) => (member === out ? into : member)),
    )
  const firingA = swapped(kilnA, placeA, a, b)
  const firingB = firingA && swapped(kilnB, placeB, b, a)
  if (!firingB) return undefined
  const edits = new Map<number, Edit>()
  editOf(edits, kilnA).replaced.set(placeA, firingA)
  editOf(edits, kilnB).replaced.set(placeB, firingB)
  return { lines: changeOf(arrangement, edits) }
}

function anyFiring({ lines }: Arrangement, rng: Rng): { readonly kiln: number; readonly place: number } | undefined {
  const kiln = rng.int(lines.length)
  const { length } = lines[kiln]!.firings
  return length === 0 ? undefined : { kiln, place: rng.int(length) }
}

function moveFiring(arrangement: Arrangement, rng: Rng): Change | undefined {
  const { floor, lines } = arrangement
  const from = anyFiring(arrangement, rng)
  if (!from) return undefined
  const firing = lines[from.kiln]!.firings[from.place]!
  const kiln = rng.int(lines.length)
  const before = rng.int(lines[kiln]!.firings.length + 1)
  if (kiln === from.kiln && (before === from.place || before === from.place + 1)) return undefined
  const moved = kiln === from.kiln ? firing : makeFiring(floor, kiln, firing.members)
  if (!moved) return undefined
  const edits = new Map<number, Edit>()
  editOf(edits, from.kiln).replaced.set(from.place, undefined)
  editOf(edits, kiln).put = { firing: moved, before }
  return { lines: changeOf(arrangement, edits) }
}

function swapNeighbours(arrangement: Arrangement, rng: Rng): Change | undefined {
  const at = anyFiring(arrangement, rng)
  if (!at || at.place === 0) return undefined
  const firings = [...arrangement.lines[at.kiln]!.firings]
  const [first, second] = [firings[at.place - 1]!, firings[at.place]!]
  firings[at.place - 1] = second
  firings[at.place] = first
  return { lines: [{ kiln: at.kiln, firings }] }
}

function mergeFirings(arrangement: Arrangement, rng: Rng): Change | undefined {
  const { floor, lines } = arrangement
  const [a, b] = [anyFiring(arrangement, rng), anyFiring(arrangement, rng)]
  if (!a || !b || (a.kiln === b.kiln && a.place === b.place)) return undefined
  const both = [...lines[a.kiln]!.firings[a.place]!.members, ...lines[b.kiln]!.firings[b.place]!.members]
  const merged = makeFiring(floor, a.kiln, both)
  if (!merged) return undefined
  const edits = new Map<number, Edit>()
  editOf(edits, a.kiln).replaced.set(a.place, merged)
  editOf(edits, b.kiln).replaced.set(b.place, undefined)
  return { lines: changeOf(arrangement, edits) }
}

/** Some of a firing's members, those ready first or any, go into one of their own. */
function splitFiring(arrangement: Arrangement, rng: Rng): Change | undefined {
  const { floor, lines } = arrangement
  const at = anyFiring(arrangement, rng)
  if (!at) return undefined
  const { members } = lines[at.kiln]!.firings[at.place]!
  if (members.length < 2) return undefined
  const readyMin = (member: number) => Math.min(...floor.members[member]!.leastMin)
  const limit = readyMin(one(members, rng)!)
  const byReady = rng.next() < 0.5
  const apart = members.filter((member) => (byReady ? readyMin(member) >= limit : rng.next() < 0.5))
  if (apart.length === 0 || apart.length === members.length) return undefined
  const rest = makeFiring(
    floor,
    at.kiln,
    members.filter((member) => !apart.includes(member)),
  )
  const kiln = rng.int(lines.length)
  const own = rest && makeFiring(floor, kiln, apart)
  if (!own) return undefined
  const edits = new Map<number, Edit>()
  editOf(edits, at.kiln).replaced.set(at.place, rest)
  editOf(edits, kiln).put = { firing: own, before: rng.int(lines[kiln]!.firings.length + 1) }
  return { lines: changeOf(arrangement, edits) }
}

function otherMode(arrangement: Arrangement, rng: Rng): Change | undefined {
  const { floor, lines } = arrangement
  const at = anyFiring(arrangement, rng)
  if (!at) return undefined
  const { members, mode } = lines[at.kiln]!.firings[at.place]!
  const wanted = rng.int(floor.kilns[at.kiln]!.modeCost.length)
  const other = wanted === mode ? undefined : makeFiring(floor, at.kiln, members, wanted)
  if (!other) return undefined
  const edits = new Map<number, Edit>()
  editOf(edits, at.kiln).replaced.set(at.place, other)
  return { lines: changeOf(arrangement, edits) }
}

function leaveOut(arrangement: Arrangement, rng: Rng): Change | undefined {
  const { floor, kilnOf } = arrangement
  const member = rng.int(floor.members.length)
  if (kilnOf[member]! < 0 || floor.members[member]!.leftOutCost === undefined) return undefined
  const edits = new Map<number, Edit>()
  if (!takeOut(arrangement, member, edits)) return undefined
  return { lines: changeOf(arrangement, edits), leaves: member }
}
