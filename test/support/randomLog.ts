/** Logs as bad as logs get: two devices, rough times, slips, repeats, corrections of corrections, things unheard of. */
import type { Entry, EntryBodies, EntryKind } from '#core/logbook/entry.ts'
import { feltVerdicts, lossCauses } from '#core/logbook/entry.ts'
import type { Rng } from '#core/rng.ts'
import type { Design } from '#core/studio/studio.ts'
import { aDesign, aStep, traySteps } from './designBuilders.ts'
import { anEntry } from './entryBuilders.ts'

const band = { from: 'leather hard', to: 'firm' } as const

/** A tray (cut, join) and a planter (cut, drape, release, join, stamp). */
export const logDesigns: readonly Design[] = [
  aDesign(),
  aDesign({
    id: 'planter',
    steps: [
      aStep(),
      aStep({ id: 'drape', kind: 'drape', band: { from: 'any', to: 'soft' } }),
      aStep({ id: 'release', kind: 'release', band }),
      aStep({ id: 'join', kind: 'join', band }),
      aStep({ id: 'stamp', kind: 'surface', band }),
      ...traySteps.slice(2),
    ],
  }),
]

/** What a studio does, in the order in which a run of ware passes through it, mixed with slips by `slipRatio` (0-1). */
export function aRandomLog(rng: Rng, length: number, slipRatio: number): Entry[] {
  const pick = <T>(items: readonly T[]): T => items[rng.int(items.length)]!
  const runs = Math.max(2, Math.round(length / 15))
  const entries: Entry[] = []
  const push = <Kind extends EntryKind>(kind: Kind, minute: number, body: EntryBodies[Kind]) => {
    const number = entries.length
    const rough = rng.int(4) === 0 ? 60 * rng.int(5) : 0
    entries.push({
      id: `e${number}`,
      version: 1,
      kind,
      happenedMin: minute + (rough === 0 ? 0 : rng.int(2 * rough + 1) - rough),
      roughMin: rough,
      deviceId: pick(['phone', 'tablet']),
      deviceSeq: number,
      by: null,
      body,
      hint: rng.int(5) === 0 ? { planId: 'plan', stepId: pick(['cut', 'join']) } : null,
    } as Entry)
  }
  const slips = (): boolean => rng.next() < slipRatio
  const waits = () => ({ cover: pick(['open', 'loose', 'sealed'] as const), spotId: pick(['rack', 'heater']) })
  const runId = () => `r${rng.int(runs)}`
  const anyEntry = (minute: number) => {
    const of = { runId: slips() ? 'nobody' : runId(), count: rng.int(8) + (slips() ? -1 : 1) }
    const designId = slips() ? 'unheard-of' : of.runId.endsWith('1') ? 'planter' : 'tray'
    const firingId = `f${rng.int(4)}`
    const member = {
      runId: rng.int(4) === 0 ? null : runId(),
      designId,
      glazeId: pick([null, 'white']),
      count: 1 + rng.int(4),
    }
    const stepId = slips() ? 'unheard-of' : pick(['join', 'join', 'drape', 'release', 'stamp'])
    const sorted = {
      good: rng.int(4),
      second: rng.int(2),
      refire: rng.int(2),
      lost: rng.int(2),
      cause: pick(lossCauses),
    }
    const total = sorted.good + sorted.second + sorted.refire + sorted.lost
    switch (rng.int(22)) {
      case 0:
        return push('begun', minute, { ...of, designId })
      case 1:
      case 2:
        return push('cut', minute, { ...of, designId, ...waits() })
      case 3:
      case 4:
      case 5:
        return push(pick(['joined', 'refined', 'decorated'] as const), minute, { ...of, stepId, ...waits() })
      case 6:
        return push('trued', minute, of)
      case 7:
        return push('moved', minute, { runId: of.runId, spotId: 'heater' })
      case 8:
        return push('covered', minute, { runId: of.runId, cover: 'sealed' })
      case 9:
        return push(pick(['turned', 'dampened'] as const), minute, { runId: of.runId })
      case 10:
        return push('felt', minute, { runId: of.runId, stepId: null, verdict: pick(feltVerdicts) })
      case 11:
        return push('split', minute, { ...of, intoRunId: `s${rng.int(4)}` })
      case 12:
        return push('second', minute, of)
      case 13:
        return push('lost', minute, { ...of, cause: pick(lossCauses) })
      case 14:
      case 15: {
        const kind = { firingKind: pick(['bisque', 'glaze'] as const), scheduleId: 'any' }
        return push('loaded', minute, {
          firingId,
          kilnId: pick(['big', 'small']),
          ...kind,
          members: [member, { ...member, runId: runId() }],
        })
      }
      case 16:
        return push('fired', minute, { firingId, candleHours: 2 })
      case 17:
      case 18:
        return push('unloaded', minute, { firingId, sorted: [{ ...member, ...sorted, count: slips() ? 9 : total }] })
      case 19: {
        const from = rng.int(3) === 0 ? null : of.runId
        const into = from !== null && rng.int(2) === 0 ? from : `g${rng.int(5)}`
        return push('glazed', minute, {
          runId: from,
          designId,
          intoRunId: into,
          glazeId: pick(['white', 'blue']),
          count: of.count,
        })
      }
      case 20:
        return push('finished', minute, of)
      default:
        return push('delivered', minute, {
          orderId: 'order',
          designId,
          glazeId: pick([null, 'white']),
          count: of.count,
        })
    }
  }
  let minute = 0
  for (let number = 0; number < length; number++) {
    if (number < runs) {
      const id = `r${number}`
      const designId = id.endsWith('1') ? 'planter' : 'tray'
      push('cut', minute, { runId: id, count: 2 + rng.int(6), designId, ...waits() })
    } else if (rng.next() < slipRatio) {
      const target = rng.int(8) === 0 ? 'nothing' : `e${rng.int(entries.length + 2)}`
      push('corrected', minute, { entryId: target })
    } else anyEntry(minute)
    minute += rng.int(3) * 20
  }
  // A retried upload arrives twice.
  return rng.int(2) === 0 ? entries : [...entries, ...entries.filter(() => rng.int(20) === 0)]
}

/**
 * Trays as an orderly studio logs them, run after run two days apart, from the cut to the door: about 16 entries a run.
 * Now and then a tick is forgotten (`slipRatio`), or a run is worked in two parts.
 */
export function anOrderlyLog(rng: Rng, runCount: number, slipRatio: number): Entry[] {
  const entries: Entry[] = []
  for (let number = 0; number < runCount; number++) {
    for (const entry of aTrayRun(rng, number, number * 2 * 1_440)) if (rng.next() >= slipRatio) entries.push(entry)
  }
  return entries.map((entry, deviceSeq) => ({ ...entry, deviceSeq }))
}

function aTrayRun(rng: Rng, number: number, cutMin: number): Entry[] {
  const runId = `run-${number}`
  const designId = 'tray'
  const count = 3 + rng.int(6)
  const entries: Entry[] = []
  const add = <Kind extends EntryKind>(kind: Kind, afterHours: number, body: EntryBodies[Kind]) =>
    entries.push(anEntry(kind, cutMin + afterHours * 60, body, { id: `${runId}-${entries.length}` }))
  const member = { runId, designId, glazeId: 'white', count }
  const load = (kind: 'bisque' | 'glaze') => {
    const firingId = `${kind}-${number}`
    return { firingId, kilnId: `${kind} kiln`, firingKind: kind, scheduleId: kind, members: [member] }
  }
  const lost = rng.int(2)
  const sorted = (good: number) => [{ ...member, good, second: 0, refire: 0, lost: member.count - good, cause: null }]
  const waits = { cover: 'sealed', spotId: 'rack' } as const
  const first = rng.int(3) === 0 ? 1 + rng.int(count - 1) : count
  add('begun', -1, { runId, designId, count })
  add('cut', 0, { runId, designId, count, cover: 'loose', spotId: 'rack' })
  add('felt', 20, { runId, stepId: 'join', verdict: 'just right' })
  add('joined', 21, { runId, count: first, stepId: 'join', ...waits })
  if (first < count) add('joined', 23, { runId, count: count - first, stepId: 'join', ...waits })
  add('covered', 70, { runId, cover: 'loose' })
  add('covered', 100, { runId, cover: 'open' })
  add('loaded', 200, load('bisque'))
  add('fired', 202, { firingId: `bisque-${number}`, candleHours: 2 })
  add('opened', 225, { firingId: `bisque-${number}` })
  add('unloaded', 230, { firingId: `bisque-${number}`, sorted: sorted(count - lost) })
  add('glazed', 250, { runId, designId, intoRunId: runId, glazeId: 'white', count: count - lost })
  add('loaded', 290, { ...load('glaze'), members: [{ ...member, count: count - lost }] })
  add('fired', 291, { firingId: `glaze-${number}`, candleHours: 0 })
  add('unloaded', 320, {
    firingId: `glaze-${number}`,
    sorted: [{ ...sorted(count - lost)[0]!, lost: 0, count: count - lost }],
  })
  add('finished', 330, { runId, count: count - lost })
  add('delivered', 340, { orderId: 'order', designId, glazeId: 'white', count: count - lost })
  return entries
}

export function shuffled<T>(items: readonly T[], rng: Rng): T[] {
  const mixed = [...items]
  for (let at = mixed.length - 1; at > 0; at--) {
    const other = rng.int(at + 1)
    ;[mixed[at], mixed[other]] = [mixed[other]!, mixed[at]!]
  }
  return mixed
}
