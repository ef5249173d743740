/** Lots as pieces for the packer, and its load named as a plan names pieces. */
import type { Load, LoadItem } from '#core/loading/types.ts'
import { loadItem } from '../facts/pieces.ts'
import type { FiringMember } from '../plan.ts'
import type { Desk } from './desk.ts'
import type { Lot } from './lots.ts'

/** Pieces offered to the packer at once: more than any studio kiln takes of small ware in a layer. Our choice. */
const MOST_PIECES_OFFERED = 90

/** One item for each piece, the pressing lot first; the packer leaves out what does not go in. */
export function itemsOf(desk: Desk, pool: readonly Lot[]): { items: LoadItem[]; lotOf: Map<string, Lot> } {
  const items: LoadItem[] = []
  const lotOf = new Map<string, Lot>()
  pool.forEach((lot, rank) => {
    for (let i = 0; i < lot.count && items.length < MOST_PIECES_OFFERED; i++) {
      // Two lots may be of one run: the rank tells them apart until the load is named.
      const item = loadItem(desk.given.studio, lot.design, lot.kind, `${lot.runId}|${rank}`, i + 1, false)
      items.push({ ...item, urgency: pool.length - rank })
      lotOf.set(item.key, lot)
    }
  })
  return { items, lotOf }
}

/** How many pieces of each lot went in. */
export function placedByLot(load: Load, lotOf: ReadonlyMap<string, Lot>): Map<Lot, number> {
  const placed = new Map<Lot, number>()
  for (const { placements } of load.levels) {
    for (const { key } of placements) {
      const lot = lotOf.get(key)!
      placed.set(lot, (placed.get(lot) ?? 0) + 1)
    }
  }
  return placed
}

/** Keys as a plan promises them: run id, `#`, and a number up to the run's pieces in this firing. */
export function renamed(load: Load, lotOf: ReadonlyMap<string, Lot>, placed: ReadonlyMap<Lot, number>) {
  const counts = new Map<string, number>()
  const names = new Map<string, string>()
  const nameOf = (key: string): string => {
    const known = names.get(key)
    if (known) return known
    const { runId } = lotOf.get(key)!
    const number = (counts.get(runId) ?? 0) + 1
    counts.set(runId, number)
    names.set(key, `${runId}#${number}`)
    return names.get(key)!
  }
  const levels = load.levels.map((level) => ({
    ...level,
    placements: level.placements.map((placement) => ({
      ...placement,
      key: nameOf(placement.key),
      ...(placement.onTopOf ? { onTopOf: { ...placement.onTopOf, key: nameOf(placement.onTopOf.key) } } : {}),
    })),
  }))
  const members = [...placed].map(([lot, count]): FiringMember => ({
    runId: lot.runId,
    designId: lot.design.id,
    glazeId: lot.glazeId,
    count,
  }))
  return { load: { ...load, levels, leftOut: [] }, members }
}
