/** Clay on the table: begun, cut, and the steps up to the last one before drying. */
import type { Design } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import type { Asked, Books, Reading, RunDraft } from './books.ts'
import { addRun, asking, childRunId, freeId, inKiln, isAlive, partOf, waitFrom } from './books.ts'
import type { EntryOf } from './entry.ts'
import { familyOf, takingFrom } from './taking.ts'
import type { Portions } from './taking.ts'

const firedSteps: ReadonlySet<string> = new Set(['glaze', 'finish', 'pack'])

/** Ids of the steps that are done while the ware is clay, in their order. Unknown design: none can be told. */
export const clayStepIdsOf = (design: Design | undefined): readonly string[] =>
  design?.steps.filter(({ kind }) => !firedSteps.has(kind)).map(({ id }) => id) ?? []

export function readBegun(books: Books, { body }: EntryOf<'begun'>): Reading {
  const run = books.runs.get(body.runId)
  // Begun late, or twice: what was cut says more.
  if (run)
    return run.designId === body.designId ? nothing : asking('design-differs', { run: run.id, design: body.designId })
  return {
    asks: unknownDesign(books, body.designId),
    write: () => void addRun(books, { id: body.runId, designId: body.designId, stage: 'begun', count: body.count }),
  }
}

/** A second cut into a run makes a child of it, with a cut time of its own; the same planned cut told twice does not. */
export function readCut(books: Books, entry: EntryOf<'cut'>): Reading {
  const { body, hint } = entry
  const run = books.runs.get(body.runId)
  const cutHint = hint && `${hint.planId} ${hint.stepId}`
  if (run && run.stage !== 'begun') {
    if (run.designId !== body.designId) return asking('design-differs', { run: run.id, design: body.designId })
    const toldBefore = cutHint !== null && familyOf(run).some((part) => part.cutHint === cutHint)
    if (toldBefore) return asking('made-twice', { run: run.id, count: body.count })
  }
  return {
    asks: unknownDesign(books, body.designId),
    write: () => {
      const again = run !== undefined && run.stage !== 'begun'
      const id = again ? freeId(books, childRunId(run.id, entry.id)) : body.runId
      const cut = addRun(books, {
        id,
        designId: body.designId,
        stage: 'clay',
        count: body.count,
        parentId: again ? run.id : null,
      })
      if (again) run.children.push(cut)
      cut.cutMin = entry.happenedMin
      cut.cutRoughMin = entry.roughMin
      cut.cutHint = cutHint
      const design = books.designs.get(body.designId)
      const first = design?.steps[0]
      if (first?.kind === 'cut') cut.doneStepIds.push(first.id)
      settleStage(cut, design)
      waitFrom(cut, entry.happenedMin, { cover: body.cover, spotId: body.spotId })
      books.cut.push({ designId: body.designId, count: body.count, minute: entry.happenedMin })
    },
  }
}

/**
 * A step done on `count` pieces: first on those of the run's family whose next step it is, then on those that would leave
 * steps out. The potter's hands are believed: steps left out count as done, and are asked about.
 */
export function readStep(books: Books, entry: EntryOf<'joined' | 'refined' | 'decorated'>): Reading {
  const { body } = entry
  const run = books.runs.get(body.runId)
  if (!run) return asking('unknown-run', { run: body.runId })
  const design = books.designs.get(run.designId)
  if (design && !clayStepIdsOf(design).includes(body.stepId)) {
    return asking('unknown-step', { run: run.id, step: body.stepId })
  }
  const family = familyOf(run)
  const found = takingFrom(books).fromRuns(family, body.count, (part) => {
    if (part.stage !== 'clay' || part.doneStepIds.includes(body.stepId)) return null
    return stepsBefore(part, design, body.stepId).length === 0 ? 0 : 1
  })
  return {
    asks: [...asksOf(found, family, body), ...skippedSteps(found, design, body.stepId)],
    write: () => {
      for (const portion of found.portions) {
        const part = partOf(books, portion.run, portion.count, entry.id)
        part.doneStepIds.push(...stepsBefore(part, design, body.stepId), body.stepId)
        part.lastStepMin = latest(entry.happenedMin, part.cutMin, part.lastStepMin)
        settleStage(part, design)
        waitFrom(part, entry.happenedMin, { cover: body.cover, spotId: body.spotId })
      }
    },
  }
}

/** Truing is part of the next step, so it parts no run: it is noted once it is said of all pieces. */
export function readTrued(books: Books, { body, happenedMin }: EntryOf<'trued'>): Reading {
  const run = books.runs.get(body.runId)
  if (!run) return asking('unknown-run', { run: body.runId })
  const clay = familyOf(run).filter((part) => part.stage === 'clay' && isAlive(part))
  if (clay.length === 0) return asking('wrong-stage', { run: run.id })
  return {
    asks: [],
    write: () => {
      for (const part of clay) if (body.count >= part.count) part.truedMin ??= happenedMin
    },
  }
}

export function readSplit(books: Books, { id, body }: EntryOf<'split'>): Reading {
  const run = books.runs.get(body.runId)
  if (!run) return asking('unknown-run', { run: body.runId })
  if (books.runs.has(body.intoRunId)) return asking('made-twice', { run: body.intoRunId })
  if (!isAlive(run) || inKiln(run.stage)) return asking('wrong-stage', { run: run.id })
  const count = Math.min(body.count, run.count)
  const asks: Asked[] =
    count < body.count
      ? [{ code: 'more-than-there-are', params: { run: run.id, count: body.count, there: count } }]
      : []
  return { asks, write: () => void partOf(books, run, count, id, body.intoRunId) }
}

/** Clay or drying, by whether any clay step is still to come. Of an unknown design nobody can tell: it stays clay. */
export function settleStage(run: RunDraft, design: Design | undefined): void {
  const done = design !== undefined && clayStepIdsOf(design).every((id) => run.doneStepIds.includes(id))
  run.stage = done ? 'drying' : 'clay'
}

/** Clay steps that stand before this one in the design and are not done. */
export function stepsBefore(run: RunDraft, design: Design | undefined, stepId: string): readonly string[] {
  const steps = clayStepIdsOf(design)
  return steps.slice(0, Math.max(0, steps.indexOf(stepId))).filter((id) => !run.doneStepIds.includes(id))
}

/** What to ask when fewer pieces than said could be meant: none there, elsewhere, said before, or too few. */
export function asksOf(
  { portions, missing }: Portions,
  family: readonly RunDraft[],
  { runId, count, stepId }: { readonly runId: string; readonly count: number; readonly stepId?: string },
): readonly Asked[] {
  if (missing === 0) return []
  const there = count - missing
  if (portions.length > 0) return [{ code: 'more-than-there-are', params: { run: runId, count, there } }]
  const living = family.filter(isAlive)
  if (living.length === 0) return [{ code: 'more-than-there-are', params: { run: runId, count, there: 0 } }]
  const doneBefore = stepId !== undefined && living.some(({ doneStepIds }) => doneStepIds.includes(stepId))
  if (doneBefore) return [{ code: 'made-twice', params: { run: runId, step: stepId, count } }]
  return [{ code: 'wrong-stage', params: { run: runId, count } }]
}

function skippedSteps({ portions }: Portions, design: Design | undefined, stepId: string): readonly Asked[] {
  return portions.flatMap(({ run, count }) => {
    const left = stepsBefore(run, design, stepId)
    return left.length > 0
      ? [{ code: 'step-out-of-order', params: { run: run.id, step: left[0]!, count } } as const]
      : []
  })
}

const unknownDesign = (books: Books, designId: string): readonly Asked[] =>
  books.designs.has(designId) ? [] : [{ code: 'unknown-design', params: { design: designId } }]

const latest = (...minutes: readonly (Minute | null)[]): Minute =>
  Math.max(...minutes.filter((minute) => minute !== null))

const nothing: Reading = { asks: [], write: () => undefined }
