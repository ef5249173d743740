/**
 * What must hold between the records of a studio: ids differ, and whatever is referred to is there. The logbook is left
 * out on purpose: it tells what happened, also to designs, spots and makers that are since gone.
 */
import type { Fault } from './fault.ts'
import type { StudioFile } from './studioFields.ts'

export function referenceFaults(file: StudioFile): Fault[] {
  return [...repeatedIds(file), ...missingThings(file), ...pinFaults(file), ...scheduleFaults(file)]
}

type Table = Exclude<keyof StudioFile, 'format' | 'version' | 'asOf' | 'studio' | 'airReadings'>

/** What one record of a table is called. */
const oneOfTable: Readonly<Record<Table, string>> = {
  makers: 'maker',
  hours: 'hours',
  busyTimes: 'busy time',
  spots: 'spot',
  clays: 'clay',
  glazes: 'glaze',
  supplies: 'supply',
  kilns: 'kiln',
  moulds: 'mould',
  firingSchedules: 'firing schedule',
  designs: 'design',
  orders: 'order',
  stock: 'stock',
  pins: 'pin',
  entries: 'entry',
}

function repeatedIds(file: StudioFile): Fault[] {
  return (Object.keys(oneOfTable) as Table[]).flatMap((table) => {
    const firstAt = new Map<string, number>()
    return file[table].flatMap(({ id }, index) => {
      const first = firstAt.get(id)
      if (first === undefined) firstAt.set(id, index)
      return first === undefined
        ? []
        : [
            {
              path: [table, index, 'id'],
              message: `The id “${id}” is already that of ${table}[${first}]; ids must differ`,
            },
          ]
    })
  })
}

/** One record that names another: where it stands, what it is called, the table looked into, and the id looked for. */
type Reference = {
  readonly path: readonly (string | number)[]
  readonly of: string
  readonly table: Table
  readonly id: string | null
}

function missingThings(file: StudioFile): Fault[] {
  const known = Object.fromEntries(
    (Object.keys(oneOfTable) as Table[]).map((table) => [table, new Set(file[table].map(({ id }) => id))]),
  )
  return referencesOf(file).flatMap(({ path, of, table, id }) =>
    id === null || known[table]!.has(id)
      ? []
      : [
          {
            path,
            message: `${of} names the ${oneOfTable[table]} “${id}”, which is not in ${table}; add it or name another`,
          },
        ],
  )
}

function referencesOf(file: StudioFile): Reference[] {
  const references: Reference[] = []
  const add = (of: string, table: Table, id: string | null, ...path: (string | number)[]) =>
    references.push({ path, of, table, id })
  file.hours.forEach((hours, at) => add('This span of hours', 'makers', hours.makerId, 'hours', at, 'makerId'))
  file.busyTimes.forEach((busy, at) => add('This busy time', 'makers', busy.makerId, 'busyTimes', at, 'makerId'))
  file.kilns.forEach((kiln, at) => add(`“${kiln.name}”`, 'supplies', kiln.supplyId, 'kilns', at, 'supplyId'))
  file.designs.forEach((design, at) => {
    const of = `“${design.name}”`
    add(of, 'clays', design.clayId, 'designs', at, 'clayId')
    add(of, 'firingSchedules', design.bisqueScheduleId, 'designs', at, 'bisqueScheduleId')
    add(of, 'firingSchedules', design.glazeScheduleId, 'designs', at, 'glazeScheduleId')
    design.glazeIds.forEach((glazeId, index) => add(of, 'glazes', glazeId, 'designs', at, 'glazeIds', index))
    design.steps.forEach((step, index) => add(of, 'moulds', step.mouldId, 'designs', at, 'steps', index, 'mouldId'))
  })
  file.orders.forEach((order, at) =>
    order.lines.forEach((line, index) => {
      add(`“${order.name}”`, 'designs', line.designId, 'orders', at, 'lines', index, 'designId')
      add(`“${order.name}”`, 'glazes', line.glazeId, 'orders', at, 'lines', index, 'glazeId')
    }),
  )
  file.stock.forEach((stock, at) => {
    add('This stock', 'designs', stock.designId, 'stock', at, 'designId')
    add('This stock', 'glazes', stock.glazeId, 'stock', at, 'glazeId')
  })
  file.pins.forEach((pin, at) => add('This pin', 'makers', pin.makerId, 'pins', at, 'makerId'))
  file.airReadings.forEach((reading, at) => add('This reading', 'spots', reading.spotId, 'airReadings', at, 'spotId'))
  return references
}

/** Two pins on one step say two things of one start. Pins that clash in other ways are the planner's to explain. */
function pinFaults({ pins }: StudioFile): Fault[] {
  const firstAt = new Map<string, number>()
  return pins.flatMap((pin, index) => {
    const key = JSON.stringify([pin.runId, pin.stepId])
    const first = firstAt.get(key)
    if (first === undefined) firstAt.set(key, index)
    return first === undefined
      ? []
      : [
          {
            path: ['pins', index],
            message: `pins[${first}] already fixes the step “${pin.stepId}” of this run; keep one of the two`,
          },
        ]
  })
}

function scheduleFaults({ designs, firingSchedules }: StudioFile): Fault[] {
  const kindOf = new Map(firingSchedules.map((schedule) => [schedule.id, schedule]))
  return designs.flatMap((design, at) =>
    (['bisque', 'glaze'] as const).flatMap((kind) => {
      const field = `${kind}ScheduleId` as const
      const schedule = kindOf.get(design[field])
      if (!schedule || schedule.kind === kind) return []
      const message = `“${design.name}” needs a ${kind} firing here, and “${schedule.name}” is a ${schedule.kind} firing`
      return [{ path: ['designs', at, field], message }]
    }),
  )
}
