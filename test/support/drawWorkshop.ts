import type { CostTerm, Kiln, Lag, Mode, MonotoneArc, Problem, Task } from '../../src/core/planning/search/problem.ts'
import type { Interval } from '../../src/core/time.ts'
import type { Rng } from '../../src/core/rng.ts'
import { dice, type Dice } from './dice.ts'

const reason = { code: 'drawn', params: {} }
const FIRST_MIN = 40
const FAMILIES = ['bisque', 'glaze']

/**
 * A workshop of a few pieces, too much to try every plan: each made by hand within hours, in one of two ways, fired
 * inside a window that its making decides, and unloaded; one or two kilns with families, set-ups, hours and room; some
 * pieces may be left out; two or three levels of cost.
 */
export function drawWorkshop(rng: Rng): Problem {
  const die = dice(rng)
  const lengthMin = die.between(10, 13)
  const horizon = { startMin: FIRST_MIN, endMin: FIRST_MIN + lengthMin }
  const pieces = Array.from({ length: die.between(2, 3) }, (_, i) => drawPiece(die, i, horizon))
  const kilns = Array.from({ length: die.between(1, 2) }, (_, k) => drawKiln(die, `kiln ${k}`, pieces, horizon))
  const slots = kilns.flatMap(({ slotIds }) =>
    slotIds.map((id): Task => ({ id, group: id, modes: FAMILIES.map((family, i) => mode(family, 1 + i)) })),
  )
  return {
    horizon,
    tasks: [...slots, ...pieces.flatMap(({ tasks }) => tasks)],
    lags: pieces.flatMap(({ lags }) => lags),
    monotoneArcs: pieces.flatMap(({ arcs }) => arcs),
    resources: [
      { id: 'hands', capacity: 1, profile: drawPauses(die, horizon), reason },
      { id: 'rack', capacity: die.between(2, 4), reason },
    ],
    kilns,
    costs: drawCosts(die, pieces, kilns, horizon),
  }
}

const mode = (id: string, durationMin: number, demands: Mode['demands'] = []): Mode => ({ id, durationMin, demands })

type Piece = {
  readonly name: string
  readonly fireId: string
  readonly group: string | undefined
  readonly tasks: readonly Task[]
  readonly lags: readonly Lag[]
  readonly arcs: readonly MonotoneArc[]
}

function drawPiece(die: Dice, index: number, horizon: Interval): Piece {
  const name = `piece ${index}`
  const [makeId, fireId, unloadId] = [`make ${name}`, `fire ${name}`, `unload ${name}`]
  const group = die.chance(0.5) ? name : undefined
  const needs = () => [
    { resourceId: 'hands', amount: 1 },
    { resourceId: 'rack', amount: die.between(0, 2) },
  ]
  const ways = [mode('slowly', die.between(1, 3), needs()), mode('quickly', 1, needs())]
  const make: Task = { id: makeId, modes: die.chance(0.4) ? ways : [withStarts(die, ways[0]!, horizon)] }
  // Of two modes it ends with its firing; of one it lasts no time.
  const endsWithFiring = die.chance(0.5)
  const fire: Task = {
    id: fireId,
    modes: endsWithFiring ? FAMILIES.map((family, i) => mode(family, 1 + i)) : [mode('in', 0)],
  }
  const unload: Task = { id: unloadId, modes: [mode('by hand', 1, [{ resourceId: 'hands', amount: 1 }])] }
  const isUnloaded = die.chance(0.6)
  const tasks = [make, fire, ...(isUnloaded ? [unload] : [])].map((task) =>
    group === undefined ? task : { ...task, group },
  )
  const made = { taskId: makeId, at: die.one(['start', 'end']) } as const
  const lags: Lag[] = [
    { from: { taskId: makeId, at: 'end' }, to: { taskId: fireId, at: 'start' }, minimumMin: die.between(0, 2), reason },
  ]
  if (isUnloaded) {
    const least = die.between(0, 2)
    const at = endsWithFiring ? 'end' : 'start'
    lags.push({
      from: { taskId: fireId, at },
      to: { taskId: unloadId, at: 'start' },
      minimumMin: least,
      ...(die.chance(0.4) ? { maximumMin: least + die.between(0, 3) } : {}),
      ...(make.modes.length > 1 && die.chance(0.3) ? { when: [{ taskId: makeId, modeId: 'quickly' }] } : {}),
      reason,
    })
  }
  if (die.chance(0.3)) {
    const endMin = horizon.endMin - die.between(0, 5)
    lags.push({ from: 'origin', to: { taskId: fireId, at: 'end' }, maximumMin: endMin, reason })
  }
  const arcs = die.chance(0.6)
    ? [die.one(['at-least', 'at-most'] as const)].map((bound): MonotoneArc => ({
        from: made,
        to: { taskId: fireId, at: 'start' },
        bound,
        steps: drawWindow(die, bound === 'at-least' ? die.between(0, 2) : die.between(3, 6)),
        ...(make.modes.length > 1 && die.chance(0.3) ? { when: [{ taskId: makeId, modeId: 'slowly' }] } : {}),
        reason,
      }))
    : []
  return { name, fireId, group, tasks, lags, arcs }
}

function withStarts(die: Dice, plain: Mode, { startMin, endMin }: Interval): Mode {
  if (die.chance(0.6)) return plain
  const noonMin = startMin + die.between(2, 5)
  return {
    ...plain,
    starts: [
      { startMin, endMin: noonMin },
      { startMin: noonMin + die.between(1, 3), endMin },
    ],
  }
}

/** So many minutes later, with the nights in between standing still. */
function drawWindow(die: Dice, byMin: number): MonotoneArc['steps'] {
  const noonMin = FIRST_MIN + die.between(2, 4)
  const eveningMin = noonMin + die.between(1, 3)
  const laterMin = eveningMin + byMin + die.between(0, 2)
  return [
    ...(die.chance(0.7) ? [{ fromMin: FIRST_MIN, valueMin: FIRST_MIN + byMin, slope: 1 as const }] : []),
    { fromMin: noonMin, valueMin: noonMin + byMin, slope: die.one([0, 1]) },
    { fromMin: eveningMin, valueMin: laterMin, slope: 1 },
  ]
}

function drawPauses(die: Dice, { startMin, endMin }: Interval) {
  const firstMin = startMin + die.between(1, 4)
  const first = { startMin: firstMin, endMin: firstMin + die.between(1, 2), capacity: 0 }
  const second = { startMin: first.endMin + die.between(2, 4), endMin, capacity: die.between(0, 2) }
  return die.chance(0.5) ? [first, second] : [first]
}

function drawKiln(die: Dice, id: string, pieces: readonly Piece[], horizon: Interval): Kiln {
  const pauseMin = horizon.startMin + die.between(3, 7)
  return {
    id,
    slotIds: [`${id} 0`, `${id} 1`],
    room: die.chance(0.5) ? [4] : [4, 3],
    members: pieces.map(({ fireId }) => ({
      taskId: fireId,
      size: [die.between(1, 3), die.between(0, 2)],
      familyIds: die.chance(0.4) ? FAMILIES : [die.one(FAMILIES)],
    })),
    setups: FAMILIES.flatMap((fromFamilyId) =>
      FAMILIES.map((toFamilyId) => ({ fromFamilyId, toFamilyId, minutes: die.between(0, 2), cost: die.between(0, 3) })),
    ),
    ...(die.chance(0.7) ? { initialFamilyId: die.one(FAMILIES) } : {}),
    ...(die.chance(0.6)
      ? {
          hours: [
            { startMin: horizon.startMin, endMin: pauseMin },
            { startMin: pauseMin + die.between(0, 2), endMin: horizon.endMin },
          ],
        }
      : {}),
  }
}

function drawCosts(die: Dice, pieces: readonly Piece[], kilns: readonly Kiln[], horizon: Interval): Problem['costs'] {
  const dueMin = () => horizon.startMin + die.between(3, 9)
  const lost = pieces.flatMap(({ group, fireId }): CostTerm[] => [
    ...(group === undefined ? [] : [{ kind: 'left-out', group, cost: die.between(3, 9) } as const]),
    die.chance(0.5)
      ? { kind: 'late', taskId: fireId, dueMin: dueMin(), cost: die.between(1, 5) }
      : { kind: 'tardiness', taskId: fireId, dueMin: dueMin(), weight: die.between(1, 2) },
  ])
  const firings = kilns.flatMap(({ id, slotIds }): CostTerm[] => [
    { kind: 'setups', kilnId: id, weight: 1 },
    ...slotIds.flatMap((taskId) =>
      FAMILIES.map((modeId, i) => ({ kind: 'mode', taskId, modeId, cost: 2 + i }) as const),
    ),
  ])
  const small = pieces.map(({ name, fireId }): CostTerm => {
    const taskId = `make ${name}`
    switch (die.between(0, 2)) {
      case 0:
        return { kind: 'moved', taskId, startMin: dueMin(), weight: die.between(1, 2) }
      case 1:
        return {
          kind: 'span',
          from: { taskId, at: 'end' },
          to: { taskId: fireId, at: 'start' },
          beyondMin: die.between(0, 2),
          weight: 1,
        }
      default:
        return { kind: 'makespan', weight: 1 }
    }
  })
  const levels = [
    { name: 'left out or late', terms: lost },
    { name: 'firings', terms: firings },
    { name: 'the rest', terms: small },
  ]
  return die.chance(0.5) ? levels : [{ name: 'all', terms: [...lost, ...firings] }, levels[2]!]
}
