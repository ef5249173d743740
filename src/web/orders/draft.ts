/** An order as it is typed, and what is wrong with it. */
import type { OrderRecord } from '#contract/order.ts'
import { typedCount } from '#words/typed.ts'
import { type OrderDays, dueDateFault } from './dates.ts'

export type DraftLine = {
  readonly id: string
  readonly designId: string
  readonly glazeId: string
  readonly count: string
}

export type Draft = {
  readonly kind: OrderRecord['kind']
  readonly name: string
  readonly dueDate: string
  readonly oddsWanted: number
  readonly lines: readonly DraftLine[]
}

/** Ids of lines are made on this device. */
export const emptyLine = (id: string): DraftLine => ({ id, designId: '', glazeId: '', count: '' })

export const emptyDraft = (lineId: string): Draft => ({
  kind: 'customer',
  name: '',
  dueDate: '',
  oddsWanted: 0.8,
  lines: [emptyLine(lineId)],
})

export const draftOf = ({ kind, name, dueDate, oddsWanted, lines }: OrderRecord): Draft => ({
  kind,
  name,
  dueDate,
  oddsWanted,
  lines: lines.map(({ id, designId, glazeId, count }) => ({
    id,
    designId,
    glazeId: glazeId ?? '',
    count: String(count),
  })),
})

type LineFaults = Partial<Record<'designId' | 'glazeId' | 'count', string>>

export type DraftFaults = {
  readonly name?: string
  readonly dueDate?: string
  /** By the id of the line. */
  readonly lines: Readonly<Record<string, LineFaults>>
  /** What is wrong with no field in particular. */
  readonly whole?: string
}

export const noFaults: DraftFaults = { lines: {} }

const MOST_PIECES = 10_000
const LONGEST_NAME = 120

/** One sentence for every field that cannot stay as it is. */
export function draftFaults({ name, dueDate, lines }: Draft, days?: OrderDays): DraftFaults {
  const due = dueDateFault(dueDate, days)
  return {
    ...(name.trim() === '' ? { name: 'Say for whom or for what it is.' } : {}),
    ...(name.trim().length > LONGEST_NAME ? { name: `Say it in ${LONGEST_NAME} letters or fewer.` } : {}),
    ...(due === undefined ? {} : { dueDate: due }),
    lines: Object.fromEntries(
      lines.flatMap((line) => {
        const faults = lineFaults(line)
        return Object.keys(faults).length > 0 ? [[line.id, faults]] : []
      }),
    ),
  }
}

function lineFaults({ designId, count }: DraftLine): LineFaults {
  const pieces = typedCount(count)
  const isCount = pieces >= 1 && pieces <= MOST_PIECES
  return {
    ...(designId === '' ? { designId: 'Choose a design.' } : {}),
    ...(isCount ? {} : { count: `Say how many, from 1 to ${MOST_PIECES}.` }),
  }
}

export const isFaultless = ({ lines, ...rest }: DraftFaults): boolean =>
  Object.keys(rest).length === 0 && Object.keys(lines).length === 0

type Refused = {
  readonly detail: string
  readonly fields?: readonly { readonly path: string; readonly message: string }[] | undefined
}

/** What the server would not take, put beside the fields that it means; what belongs to none is said of the whole. */
export function faultsOf({ detail, fields = [] }: Refused, { lines }: Draft): DraftFaults {
  const byLine: Record<string, LineFaults> = {}
  const own: { name?: string; dueDate?: string; whole?: string } = {}
  for (const { path, message } of fields) {
    const [, at, field] = /^lines\[(\d+)\]\.(designId|glazeId|count)$/.exec(path) ?? []
    const line = at === undefined ? undefined : lines[Number(at)]
    if (line && field) byLine[line.id] = { ...byLine[line.id], [field]: message }
    else if (path === 'name' || path === 'dueDate') own[path] = message
    else own.whole = message
  }
  return fields.length === 0 ? { lines: {}, whole: detail } : { ...own, lines: byLine }
}

/** A shelf waits for nobody, so it weighs less than people who do. Our choice. */
const usualWeight = { customer: 1, market: 1, stock: 0.5 } as const

/** The order that the draft stands for. @param before what it was, when it is amended */
export function orderOf(draft: Draft, id: string, before?: OrderRecord): OrderRecord {
  const { kind, name, dueDate, oddsWanted, lines } = draft
  return {
    id,
    kind,
    name: name.trim(),
    dueDate,
    weight: before && before.kind === kind ? before.weight : usualWeight[kind],
    oddsWanted,
    lines: lines.map(({ id: lineId, designId, glazeId, count }) => ({
      id: lineId,
      designId,
      glazeId: glazeId === '' ? null : glazeId,
      count: typedCount(count),
    })),
  }
}
