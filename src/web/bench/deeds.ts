/** What a tap on a row says happened. */
import type { CoverKind } from '#core/drying/types.ts'
import type { FeltVerdict, LossCause } from '#core/logbook/entry.ts'
import { countText } from '#words/amounts.ts'
import { capital } from '#words/times.ts'
import { coverDeeds, coverTexts } from '#words/trade.ts'
import { firingStep } from '../data/firingSteps.ts'
import type { Deed, Happened } from '../data/useLog.ts'
import type { BenchRow, HandRow, KilnRow } from './rows.ts'

/** Made where chance is allowed. */
export type NewId = (what: string) => string

export type Said = Pick<Deed, 'happened' | 'said'>

const kilnAnswers: Readonly<Record<KilnRow['task']['kind'], string>> = {
  load: 'Loaded as planned',
  start: 'Switched on',
  'switch-up': '',
  'shut-off': '',
  open: 'Opened',
  unload: 'Unloaded, all good',
}

export type Answer = { readonly name: string; readonly deed: Said }

/** The plain answers to a row, the likeliest first; none where there is nothing to be said yet, or only by a later step. */
export function answersTo(row: BenchRow, newId: NewId): Answer[] {
  if (row.kind === 'kiln') return named(kilnAnswers[row.task.kind], kilnDeed(row, newId))
  const { task } = row
  const { parkWhen, after } = task
  const otherwise = after ? `: ${coverDeeds[after.cover]}` : ''
  if (task.kind === 'look-in') {
    if (!parkWhen) return lookedIn(row, after, null, after ? `Done${otherwise}` : 'Looked in')
    return [
      ...lookedIn(row, parkWhen, 'just right', `Firm enough: ${coverDeeds[parkWhen.cover]}`),
      ...lookedIn(row, after, 'too soft', `Not yet${otherwise}`),
    ]
  }
  const name = `Done, all ${task.count}`
  const done = { count: task.count, rest: null }
  if (!parkWhen) return named(name, doneDeed(row, done, newId))
  return [
    ...named(`${name}, firm: ${coverDeeds[parkWhen.cover]}`, doneDeed(row, { ...done, cover: parkWhen.cover }, newId)),
    ...named(`${name}, not yet firm${otherwise}`, doneDeed(row, done, newId)),
  ]
}

const named = (name: string, deed: Said | null): Answer[] => (deed ? [{ name, deed }] : [])

type Done = {
  readonly count: number
  /** What those done wait under; as planned if not said. */
  readonly cover?: CoverKind
  /** What the others wait under from now on; null: as they stand. */
  readonly rest: CoverKind | null
}

/** The step is done on so many of its pieces. @returns null for what is only said by a later step */
export function doneDeed(row: HandRow, { count, cover, rest }: Done, newId: NewId): Said | null {
  const step = stepHappened(row, count, cover, newId)
  if (!step) return null
  const said = `${row.title}: ${countText(count, row.design.name)}`
  const left = row.task.count - count
  if (left <= 0 || rest === null || !row.isClay) return { happened: [step], said }
  return {
    happened: [step, { kind: 'covered', body: { runId: row.run.id, cover: rest } }],
    said: `${said}; ${left} ${coverTexts[rest]}`,
  }
}

function stepHappened(
  { task, run, design, standing }: HandRow,
  count: number,
  cover: CoverKind | undefined,
  newId: NewId,
): Happened | null {
  const kind = design.steps.find(({ id }) => id === task.stepId)?.kind
  const after = task.after ?? standing ?? { cover: 'open', spotId: run.boards[0]?.spotId ?? '' }
  const waits = { cover: cover ?? after.cover, spotId: after.spotId }
  const runId = run.id
  if (kind === 'cut') {
    const own = run.underWay ? runId : newId('run')
    return { kind: 'cut', body: { runId: own, count, designId: design.id, ...waits } }
  }
  if (kind === 'glaze') {
    const fromShelf = !run.underWay
    const glazeId = task.glazeId ?? design.glazeIds[0] ?? ''
    const intoRunId = fromShelf ? newId('run') : runId
    return { kind: 'glazed', body: { runId: fromShelf ? null : runId, designId: design.id, intoRunId, glazeId, count } }
  }
  // "Finished" puts ware on the shelf: it is said once, by the last step.
  if (kind === 'finish' && design.steps.some((step) => step.kind === 'pack')) return null
  if (kind === 'finish' || kind === 'pack') return { kind: 'finished', body: { runId, count } }
  return { kind: kind === 'surface' ? 'refined' : 'joined', body: { runId, count, stepId: task.stepId, ...waits } }
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

/** @param verdict null: how it felt was not asked */
function lookedIn(
  row: HandRow,
  then: { readonly cover: CoverKind } | null,
  verdict: FeltVerdict | null,
  name: string,
): Answer[] {
  const { run, standing, design } = row
  const cover = then?.cover ?? standing?.cover
  if (!cover) return []
  const felt = verdict === null ? [] : feltDeed(row, verdict).happened
  const found = verdict === null ? '' : verdict === 'too soft' ? 'not yet, ' : 'firm enough, '
  const happened: Happened[] = [...felt, { kind: 'covered', body: { runId: run.id, cover } }]
  return named(name, { happened, said: `${design.name}: ${found}${coverTexts[cover]}` })
}

export const secondDeed = ({ run, design }: HandRow, count: number): Said => ({
  happened: [{ kind: 'second', body: { runId: run.id, count } }],
  said: `Second: ${countText(count, design.name)}`,
})

export const lostDeed = ({ run, design }: HandRow, count: number, cause: LossCause): Said => ({
  happened: [{ kind: 'lost', body: { runId: run.id, count, cause } }],
  said: `${cause === 'other' ? 'Lost' : capital(cause)}: ${countText(count, design.name)}`,
})

/** @returns null for what the logbook has no entry for, and for what can be said only once the load is in */
function kilnDeed({ firing, task, title, what }: KilnRow, newId: NewId): Said | null {
  const said = `${title}: ${what}`
  if (task.kind === 'load') return { happened: [firingStep('load', firing, newId('firing'))], said }
  if (!firing.underWay || task.kind === 'switch-up' || task.kind === 'shut-off') return null
  if (task.kind !== 'unload') return { happened: [firingStep(task.kind, firing, firing.id)], said }
  const sorted = firing.members.map((member) => ({ ...member, ...allGood(member.count) }))
  return { happened: [{ kind: 'unloaded', body: { firingId: firing.id, sorted } }], said: `${said}, all good` }
}

const allGood = (count: number) => ({ good: count, second: 0, refire: 0, lost: 0, cause: null })
