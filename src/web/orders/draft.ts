/** An order as it is typed, and what is wrong with it. */
import type { OrderRecord } from '#contract/order.ts'

export type Draft = {
  readonly name: string
  readonly dueDate: string
  readonly designId: string
  readonly glazeId: string
  readonly count: string
}

export const emptyDraft: Draft = { name: '', dueDate: '', designId: '', glazeId: '', count: '' }

export type DraftFaults = Partial<Record<keyof Draft, string>>

const MOST_PIECES = 10_000

/** One sentence for every field that cannot stay as it is. */
export function draftFaults({ name, dueDate, designId, count }: Draft): DraftFaults {
  const pieces = Number(count)
  return {
    ...(name.trim() === '' ? { name: 'Say for whom or for what it is.' } : {}),
    ...(/^\d{4}-\d{2}-\d{2}$/.test(dueDate) ? {} : { dueDate: 'Choose the day on which it is due.' }),
    ...(designId === '' ? { designId: 'Choose a design.' } : {}),
    ...(Number.isInteger(pieces) && pieces >= 1 && pieces <= MOST_PIECES
      ? {}
      : { count: `Say how many, from 1 to ${MOST_PIECES}.` }),
  }
}

/** The order that the draft stands for. @param id made on this device */
export const orderOf = ({ name, dueDate, designId, glazeId, count }: Draft, id: string): OrderRecord => ({
  id,
  kind: 'customer',
  name: name.trim(),
  dueDate,
  weight: 1,
  oddsWanted: 0.8,
  lines: [{ id: `${id}-1`, designId, glazeId: glazeId === '' ? null : glazeId, count: Number(count) }],
})
