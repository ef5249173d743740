/** A large studio to measure screens with: the example so many times under one roof, each copy with names of its own. */
import type { EntryRecord } from '#contract/entry.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { exampleStudioFile } from '#db/seed/exampleStudio.ts'

/** Racks, covers, clays, glazes, designs and schedules are shared: they only grow. */
const namesOfItsOwn = new Set(['id', 'makerId', 'runId', 'intoRunId', 'orderId', 'kilnId', 'firingId', 'by'])
/** Of each copy: enough that what is under way is wanted, and so few that the plan is made in seconds. */
const ordersOfEach = 6

/**
 * The same day gives the same studio. Each copy has eight runs under way, in every stage.
 * @param today YYYY-MM-DD in the example's zone
 */
export function busyStudioFile(today: string, copyCount: number): StudioFile {
  const one = exampleStudioFile(today)
  const repeated = <Kind>(list: readonly Kind[]): Kind[] =>
    Array.from({ length: copyCount }, (_, copy) => list.map((item) => named(item, copy))).flat()
  return {
    ...one,
    studio: { ...one.studio, wareBoardCount: one.studio.wareBoardCount * copyCount },
    makers: repeated(one.makers),
    hours: repeated(one.hours),
    busyTimes: repeated(one.busyTimes),
    spots: one.spots.map((spot) => ({ ...spot, boardCount: spot.boardCount * copyCount })),
    clays: one.clays.map((clay) => ({ ...clay, onHandKg: clay.onHandKg && clay.onHandKg * copyCount })),
    glazes: one.glazes.map((glaze) => ({ ...glaze, onHandL: glaze.onHandL && glaze.onHandL * copyCount })),
    moulds: one.moulds.map((mould) => ({ ...mould, count: mould.count * copyCount })),
    supplies: one.supplies.map((supply) => ({ ...supply, kilnsAtOnce: supply.kilnsAtOnce * copyCount })),
    kilns: repeated(one.kilns),
    orders: repeated(one.orders.slice(0, ordersOfEach)),
    stock: repeated(one.stock),
    entries: repeated(one.entries).map((entry, index): EntryRecord => ({ ...entry, deviceSeq: index + 1 })),
  }
}

/** Whatever names something that each copy has for itself then names that of this copy, at any depth. */
function named<Value>(value: Value, copy: number): Value {
  if (Array.isArray(value)) return value.map((item: unknown) => named(item, copy)) as Value
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]: [string, unknown]) => [
      key,
      namesOfItsOwn.has(key) && typeof inner === 'string' ? `${inner}-${copy + 1}` : named(inner, copy),
    ]),
  ) as Value
}
