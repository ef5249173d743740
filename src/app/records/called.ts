import type { RecordName } from '#store/recordTables.ts'

/** What one record of each table is called when the person is spoken to. */
export const called: Readonly<Record<RecordName, string>> = {
  makers: 'maker',
  hours: 'hours',
  busyTimes: 'busy time',
  spots: 'spot',
  clays: 'clay',
  glazes: 'glaze',
  supplies: 'power supply',
  kilns: 'kiln',
  moulds: 'mould',
  firingSchedules: 'firing schedule',
  designs: 'design',
  orders: 'order',
  stock: 'stock',
  pins: 'pin',
}

/** By its name where it has one: “Tray”; else by what it is. */
export function nameOf(name: RecordName, record: object): string {
  return 'name' in record && typeof record.name === 'string' ? `“${record.name}”` : `this ${called[name]}`
}
