/** Where a record of the wire and a type of the core are one and the same thing, the compiler holds them together. */
import { expect, expectTypeOf, test } from 'vitest'
import type { AirReading } from '#core/air/types.ts'
import type { Entry, EntryBodies, EntryKind } from '#core/logbook/entry.ts'
import type { FiringSchedule } from '#core/firing/types.ts'
import { handWorks } from '#core/studio/studio.ts'
import type {
  ClayBody,
  Design,
  Glaze,
  Kiln,
  Maker,
  Mould,
  Order,
  OrderLine,
  Pin,
  PowerSupply,
  Spot,
  StockItem,
  StudioRulesOfHouse,
} from '#core/studio/studio.ts'
import type { ClayRecord, GlazeRecord } from '#contract/clay.ts'
import type { DesignRecord, MouldRecord } from '#contract/design.ts'
import { entryKinds } from '#contract/entry.ts'
import type { EntryRecord } from '#contract/entry.ts'
import type { FiringScheduleRecord } from '#contract/firingSchedule.ts'
import type { KilnRecord, SupplyRecord } from '#contract/kiln.ts'
import type { MakerRecord } from '#contract/maker.ts'
import type { OrderRecord, PinRecord, StockRecord } from '#contract/order.ts'
import type { AirReadingRecord, SpotRecord } from '#contract/spot.ts'
import type { HouseRules } from '#contract/studio.ts'

test('records that mean the same as the core have its type', () => {
  expectTypeOf<HouseRules>().toEqualTypeOf<StudioRulesOfHouse>()
  expectTypeOf<SpotRecord>().toEqualTypeOf<Spot>()
  expectTypeOf<SupplyRecord>().toEqualTypeOf<PowerSupply>()
  expectTypeOf<KilnRecord>().toEqualTypeOf<Kiln>()
  expectTypeOf<MouldRecord>().toEqualTypeOf<Mould>()
  expectTypeOf<DesignRecord>().toEqualTypeOf<Design>()
  expectTypeOf<StockRecord>().toEqualTypeOf<StockItem>()
})

test('records that say more exactly what the core allows can stand for it', () => {
  expectTypeOf<GlazeRecord>().toExtend<Glaze>()
  expectTypeOf<FiringScheduleRecord>().toExtend<FiringSchedule>()
  expectTypeOf<Pick<ClayRecord, 'shrinkage' | 'coneLow' | 'coneHigh' | 'onHandKg'>>().toExtend<Partial<ClayBody>>()
})

test('records that keep time on the wire differ from the core in their times alone', () => {
  expectTypeOf<MakerRecord>().toEqualTypeOf<Pick<Maker, 'id' | 'name' | 'skills'>>()
  expectTypeOf<Omit<OrderRecord, 'dueDate'>>().toEqualTypeOf<Omit<Order, 'packedByMin'>>()
  expectTypeOf<OrderRecord['lines'][number]>().toEqualTypeOf<OrderLine>()
  expectTypeOf<Omit<PinRecord, 'startsAt'>>().toEqualTypeOf<Omit<Pin, 'startMin'>>()
  expectTypeOf<Pick<AirReadingRecord, 'tempC' | 'rh'>>().toEqualTypeOf<Omit<AirReading, 'minute'>>()
})

type BodyOf<Kind extends EntryKind> = Extract<EntryRecord, { kind: Kind }>['body']
/** The kinds whose bodies hold neither a time nor a cone, which the wire spells more narrowly. */
type Plain = Exclude<EntryKind, 'away' | 'cone-read'>
type OnTheWire = { [Kind in Plain]: BodyOf<Kind> }
type InTheLogbook = { [Kind in Plain]: EntryBodies[Kind] }

test('an entry has the kinds and bodies of the logbook', () => {
  expectTypeOf<EntryRecord['kind']>().toEqualTypeOf<EntryKind>()
  expectTypeOf<OnTheWire>().toExtend<InTheLogbook>()
  expectTypeOf<InTheLogbook>().toExtend<OnTheWire>()
  expectTypeOf<BodyOf<'cone-read'>>().toExtend<EntryBodies['cone-read']>()
  expectTypeOf<
    Pick<EntryRecord, 'id' | 'version' | 'roughMin' | 'deviceId' | 'deviceSeq' | 'by' | 'hint'>
  >().toEqualTypeOf<Pick<Entry, 'id' | 'version' | 'roughMin' | 'deviceId' | 'deviceSeq' | 'by' | 'hint'>>()
  expect(new Set(entryKinds).size).toBe(entryKinds.length)
  expect(handWorks.length).toBeGreaterThan(0)
})
