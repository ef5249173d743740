/** What a tap on a row says happened. */
import type { CoverKind } from '#core/drying/types.ts'
import type { FeltVerdict, LossCause } from '#core/logbook/entry.ts'
import { countText } from '#words/amounts.ts'
import { capital } from '#words/times.ts'
import { coverTexts } from '#words/trade.ts'
import type { Deed, Happened } from '../data/useLog.ts'
import type { HandRow, KilnRow } from './rows.ts'

/** Made where chance is allowed. */
export type NewId = (what: string) => string

type Said = Pick<Deed, 'happened' | 'said'>

/**
 * The step is done on so many of its pieces.
 * @param rest what the others wait under from now on; null: as they stand
 */
export function doneDeed(row: HandRow, count: number, rest: CoverKind | null, newId: NewId): Said {
  const said = `${row.title}: ${countText(count, row.design.name)}`
  const left = row.task.count - count
  const happened = stepHappened(row, count, newId)
  if (left <= 0 || rest === null || !row.isClay) return { happened, said }
  return {
    happened: [...happened, { kind: 'covered', body: { runId: row.run.id, cover: rest } }],
    said: `${said}; ${left} ${coverTexts[rest]}`,
  }
}

function stepHappened({ task, run, design, standing }: HandRow, count: number, newId: NewId): Happened[] {
  const kind = design.steps.find(({ id }) => id === task.stepId)?.kind
  const after = task.after ?? standing ?? { cover: 'open', spotId: '' }
  const waits = { cover: after.cover, spotId: after.spotId }
  const runId = run.id
  if (kind === 'cut') {
    const own = run.underWay ? runId : newId('run')
    return [{ kind: 'cut', body: { runId: own, count, designId: design.id, ...waits } }]
  }
  if (kind === 'glaze') {
    const fromShelf = !run.underWay
    const glazeId = task.glazeId ?? design.glazeIds[0] ?? ''
    const intoRunId = fromShelf ? newId('run') : runId
    return [
      { kind: 'glazed', body: { runId: fromShelf ? null : runId, designId: design.id, intoRunId, glazeId, count } },
    ]
  }
  if (kind === 'finish' || kind === 'pack') return [{ kind: 'finished', body: { runId, count } }]
  return [{ kind: kind === 'surface' ? 'refined' : 'joined', body: { runId, count, stepId: task.stepId, ...waits } }]
}

/** How the clay felt, while somebody had it in hand. */
export const feltDeed = ({ run, clayStepId, design }: HandRow, verdict: FeltVerdict): Said => ({
  happened: [{ kind: 'felt', body: { runId: run.id, stepId: clayStepId, verdict } }],
  said: `${design.name}: ${verdict}`,
})

export const coveredDeed = (row: Pick<HandRow, 'run' | 'design'>, cover: CoverKind): Said => ({
  happened: [{ kind: 'covered', body: { runId: row.run.id, cover } }],
  said: `${row.design.name}: ${coverTexts[cover]}`,
})

/** A look-in at which the clay was as firm as it had to be, or not yet. */
export function lookedIn(row: HandRow, isFirm: boolean): Said {
  const { task, run } = row
  const cover = isFirm ? task.parkWhen?.cover : task.after?.cover
  const felt: Happened[] = task.parkWhen ? feltDeed(row, isFirm ? 'just right' : 'too soft').happened.slice() : []
  const covered: Happened[] = cover ? [{ kind: 'covered', body: { runId: run.id, cover } }] : []
  const how = cover ? coverTexts[cover] : 'left as it is'
  return {
    happened: felt.length + covered.length > 0 ? [...felt, ...covered] : feltDeed(row, 'just right').happened,
    said: `${row.design.name}: ${task.parkWhen ? (isFirm ? 'firm enough, ' : 'not yet, ') : ''}${how}`,
  }
}

export const secondDeed = ({ run, design }: HandRow, count: number): Said => ({
  happened: [{ kind: 'second', body: { runId: run.id, count } }],
  said: `Second: ${countText(count, design.name)}`,
})

export const lostDeed = ({ run, design }: HandRow, count: number, cause: LossCause): Said => ({
  happened: [{ kind: 'lost', body: { runId: run.id, count, cause } }],
  said: `${cause === 'other' ? 'Lost' : capital(cause)}: ${countText(count, design.name)}`,
})

/** @returns null for what the logbook has no entry for: it passes by itself */
export function kilnDeed(row: KilnRow, newId: NewId): Said | null {
  const { firing, task } = row
  const firingId = firing.underWay ? firing.id : newId('firing')
  const said = `${row.title}: ${row.what}`
  switch (task.kind) {
    case 'load': {
      const { kilnId, kind: firingKind, scheduleId, members } = firing
      return {
        happened: [{ kind: 'loaded', body: { firingId, kilnId, firingKind, scheduleId, members: [...members] } }],
        said,
      }
    }
    case 'start':
      return firing.underWay
        ? { happened: [{ kind: 'fired', body: { firingId, candleHours: firing.candleHours } }], said }
        : null
    case 'open':
      return firing.underWay ? { happened: [{ kind: 'opened', body: { firingId } }], said } : null
    case 'unload': {
      if (!firing.underWay) return null
      const sorted = firing.members.map((member) => ({
        ...member,
        good: member.count,
        second: 0,
        refire: 0,
        lost: 0,
        cause: null,
      }))
      return { happened: [{ kind: 'unloaded', body: { firingId, sorted } }], said: `${said}, all good` }
    }
    case 'switch-up':
    case 'shut-off':
      return null
  }
}
