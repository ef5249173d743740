/** Which entries count: each id once, and none that a standing correction makes void. */
import { byHappening } from './entry.ts'
import type { Entry, EntryOf } from './entry.ts'
import type { Question } from './state.ts'

export type Standing = {
  /** In the order in which they are folded; corrections themselves are not among them. */
  readonly entries: readonly Entry[]
  readonly voided: readonly string[]
  readonly questions: readonly Question[]
}

/**
 * An entry stands unless a standing correction names it, so that a correction of a correction brings the entry back. When
 * which of them happened does not matter: a correction may come before what it corrects. Corrections that go round in a
 * circle are left without effect.
 */
export function standingEntries(entries: readonly Entry[]): Standing {
  const { once, questions } = eachOnce(entries)
  const corrections = once.filter((entry) => entry.kind === 'corrected')
  const stands = standingIds(once, corrections)
  const ids = new Set(once.map(({ id }) => id))
  for (const { id, body } of corrections) {
    if (stands.get(id) === undefined)
      questions.push({ entryId: id, code: 'corrects-itself', params: { entry: body.entryId } })
    else if (stands.get(id) && !ids.has(body.entryId)) {
      questions.push({ entryId: id, code: 'unknown-entry', params: { entry: body.entryId } })
    }
  }
  return {
    entries: once.filter(({ id, kind }) => kind !== 'corrected' && stands.get(id)),
    voided: once
      .filter(({ id }) => stands.get(id) === false)
      .map(({ id }) => id)
      .toSorted(),
    questions,
  }
}

/** The first of each id in fold order: an entry that arrives twice counts once; two unlike ones under one id are asked about. */
function eachOnce(entries: readonly Entry[]): { once: Entry[]; questions: Question[] } {
  const once: Entry[] = []
  const questions: Question[] = []
  const byId = new Map<string, Entry>()
  const asked = new Set<string>()
  for (const entry of entries.toSorted((a, b) => byHappening(a, b) || byText(a, b))) {
    const first = byId.get(entry.id)
    if (!first) {
      byId.set(entry.id, entry)
      once.push(entry)
    } else if (first !== entry && !asked.has(entry.id) && byText(first, entry) !== 0) {
      asked.add(entry.id)
      questions.push({ entryId: entry.id, code: 'made-twice', params: { entry: entry.id } })
    }
  }
  return { once, questions }
}

function byText(a: Entry, b: Entry): number {
  const [textA, textB] = [JSON.stringify(inKeyOrder(a)), JSON.stringify(inKeyOrder(b))]
  return textA === textB ? 0 : textA < textB ? -1 : 1
}

/** Two devices may write the fields of the same thing in another order. */
function inKeyOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inKeyOrder)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value)
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, inner]) => [key, inKeyOrder(inner)]),
  )
}

/**
 * Settles from the entries nobody corrects back to those they correct: void as soon as one standing correction is found,
 * standing once all of its corrections are void. What is left unsettled goes round in a circle.
 */
function standingIds(entries: readonly Entry[], corrections: readonly EntryOf<'corrected'>[]): Map<string, boolean> {
  const open = new Map<string, number>()
  const targets = new Map<string, string>()
  for (const { id, body } of corrections) {
    targets.set(id, body.entryId)
    open.set(body.entryId, (open.get(body.entryId) ?? 0) + 1)
  }
  const stands = new Map<string, boolean>()
  const settled: string[] = []
  const settle = (id: string, standing: boolean) => {
    stands.set(id, standing)
    settled.push(id)
  }
  for (const { id } of entries) if (!open.has(id)) settle(id, true)
  for (let next = settled.pop(); next !== undefined; next = settled.pop()) {
    const target = targets.get(next)
    if (target === undefined || stands.has(target)) continue
    const left = open.get(target)! - 1
    open.set(target, left)
    if (stands.get(next)) settle(target, false)
    else if (left === 0) settle(target, true)
  }
  return stands
}
