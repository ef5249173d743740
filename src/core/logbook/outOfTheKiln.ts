/** After the bisque, and out of the door; and the ware that does not get there. */
import type { Asked, Books, Reading, RunDraft } from './books.ts'
import { addRun, asking, inKiln, isAlive, loseFrom, partOf, putOnShelf, takeOff } from './books.ts'
import { asksOf } from './claySteps.ts'
import type { EntryOf } from './entry.ts'
import { emptyUnsaid } from './kilns.ts'
import type { RunStage } from './state.ts'
import { familyOf, takingFrom } from './taking.ts'
import type { Portions } from './taking.ts'

/** Glazed pieces go on as run `intoRunId`, which may be the run itself, or one that bears that glaze already. */
export function readGlazed(books: Books, entry: EntryOf<'glazed'>): Reading {
  const { body, happenedMin } = entry
  const into = books.runs.get(body.intoRunId)
  const itself = body.runId === body.intoRunId
  const fits =
    into === undefined ||
    itself ||
    (into.stage === 'glazed' && into.designId === body.designId && into.glazeId === body.glazeId)
  if (!fits) return asking('made-twice', { run: body.intoRunId })
  if (body.runId === null) return glazedFromShelf(books, entry)
  const run = books.runs.get(body.runId)
  if (!run) return asking('unknown-run', { run: body.runId })
  const family = familyOf(run)
  const found = takingFrom(books).fromRuns(family, body.count, ({ stage }) => glazingRanks[stage] ?? null)
  return {
    asks: [...asksOf(found, family, { runId: run.id, count: body.count }), ...notUnloaded(found)],
    write: () => {
      for (const portion of found.portions) {
        emptyUnsaid(books, portion.run, entry.id, happenedMin)
        const target = itself ? undefined : books.runs.get(body.intoRunId)
        if (target) {
          takeOff(portion.run, portion.count)
          target.count += portion.count
          portion.run.children.push(target)
          continue
        }
        const part = partOf(books, portion.run, portion.count, entry.id, itself ? undefined : body.intoRunId)
        part.stage = 'glazed'
        part.glazeId = body.glazeId
        part.glazedMin = happenedMin
        part.firingId = null
      }
    },
  }
}

/** What can be glazed: bisque, what is to be glazed anew, and bisque that was never said to be unloaded. */
const glazingRanks: Partial<Record<RunStage, number>> = { bisque: 0, refire: 1, 'in bisque': 2 }

const notUnloaded = ({ portions }: Portions): readonly Asked[] =>
  portions
    .filter(({ run }) => inKiln(run.stage))
    .map(({ run, count }) => ({ code: 'step-out-of-order', params: { run: run.id, count } }))

function glazedFromShelf(books: Books, { body, happenedMin }: EntryOf<'glazed'>): Reading {
  const { piles, missing } = takingFrom(books).fromShelf(
    body.count,
    ({ stage, designId }) => stage === 'bisque' && designId === body.designId,
  )
  const there = body.count - missing
  const asks: Asked[] =
    missing > 0 ? [{ code: 'not-on-the-shelf', params: { design: body.designId, count: body.count, there } }] : []
  const write = () => {
    if (there === 0) return
    for (const { pile, count } of piles) pile.count -= count
    const into = books.runs.get(body.intoRunId)
    if (into) into.count += there
    else {
      const { intoRunId: id, designId, glazeId } = body
      addRun(books, { id, designId, stage: 'glazed', count: there, glazeId, glazedMin: happenedMin })
    }
  }
  return { asks, write }
}

export function readFinished(books: Books, { id, body, happenedMin }: EntryOf<'finished'>): Reading {
  const run = books.runs.get(body.runId)
  if (!run) return asking('unknown-run', { run: body.runId })
  const family = familyOf(run)
  const found = takingFrom(books).fromRuns(family, body.count, ({ stage }) =>
    stage === 'fired' ? 0 : stage === 'in glaze' ? 1 : null,
  )
  return {
    asks: [...asksOf(found, family, body), ...notUnloaded(found)],
    write: () => {
      for (const { run: part, count } of found.portions) {
        emptyUnsaid(books, part, id, happenedMin)
        putOnShelf(books, { designId: part.designId, stage: 'finished', glazeId: part.glazeId, count })
        takeOff(part, count)
      }
    },
  }
}

/** From the shelf; then ware that is fired but was never said to be finished. */
export function readDelivered(books: Books, { body }: EntryOf<'delivered'>): Reading {
  const taking = takingFrom(books)
  const suits = (of: { readonly designId: string; readonly glazeId: string | null }): boolean =>
    of.designId === body.designId && (body.glazeId ?? of.glazeId) === of.glazeId
  const shelf = taking.fromShelf(body.count, (pile) => pile.stage === 'finished' && suits(pile))
  const fired: RunDraft[] = []
  if (shelf.missing > 0) for (const run of books.runs.values()) if (run.stage === 'fired' && suits(run)) fired.push(run)
  const unfinished = taking.fromRuns(fired, shelf.missing, () => 0)
  const asks: Asked[] = unfinished.portions.map(({ run, count }) => ({
    code: 'step-out-of-order',
    params: { run: run.id, count },
  }))
  if (unfinished.missing > 0) {
    const there = body.count - unfinished.missing
    asks.push({ code: 'not-on-the-shelf', params: { design: body.designId, count: body.count, there } })
  }
  const give = (glazeId: string | null, count: number) =>
    books.delivered.push({ orderId: body.orderId, designId: body.designId, glazeId, count })
  return {
    asks,
    write: () => {
      for (const { pile, count } of shelf.piles) {
        pile.count -= count
        give(pile.glazeId, count)
      }
      for (const { run, count } of unfinished.portions) {
        give(run.glazeId, count)
        takeOff(run, count)
      }
    },
  }
}

export function readSecond(books: Books, { body }: EntryOf<'second'>): Reading {
  return outOfRun(books, body, (run, count) => {
    putOnShelf(books, { designId: run.designId, stage: 'second', glazeId: run.glazeId, count })
    takeOff(run, count)
  })
}

export function readLost(books: Books, { body, happenedMin }: EntryOf<'lost'>): Reading {
  return outOfRun(books, body, (run, count) => loseFrom(books, run, count, happenedMin, body.cause))
}

/** Out of the run itself, then out of what came from it, wherever it is. */
function outOfRun(
  books: Books,
  body: { readonly runId: string; readonly count: number },
  write: (run: RunDraft, count: number) => void,
): Reading {
  const run = books.runs.get(body.runId)
  if (!run) return asking('unknown-run', { run: body.runId })
  const family = familyOf(run)
  const found = takingFrom(books).fromRuns(family, body.count, (part) => (isAlive(part) ? 0 : null))
  return {
    asks: asksOf(found, family, body),
    write: () => {
      for (const portion of found.portions) write(portion.run, portion.count)
    },
  }
}
