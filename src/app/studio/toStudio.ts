import { dayAfter } from '#app/calendar/days.ts'
import { intervalsOf } from '#app/calendar/hours.ts'
import type { ClayRecord } from '#contract/clay.ts'
import type { HoursPurpose } from '#contract/maker.ts'
import type { StudioTables } from '#contract/studioFields.ts'
import { OUTDOORS } from '#core/air/spotAirs.ts'
import { completedClay } from '#core/drying/clay.ts'
import type { ClayBody, Maker, Studio } from '#core/studio/studio.ts'
import { unionOf } from '#core/time.ts'
import type { Interval, Minute } from '#core/time.ts'
import { minuteOf, startOfDay } from './wireTime.ts'

/** Calendars are laid out over it; `horizonMin` after `fromMin`. */
export type StudioSpan = { readonly fromMin: Minute; readonly horizonMin: Minute }

/**
 * The studio as the core takes it: calendars as minutes, days as moments, clays completed.
 * @throws Refusal for a zone that this machine does not know, or hours that cannot be laid out
 */
export function toStudio(tables: StudioTables, span: StudioSpan): Studio {
  const { studio, orders, pins } = tables
  const { zone } = studio
  return {
    id: studio.id,
    name: studio.name,
    rules: studio.rules,
    wareBoardCount: studio.wareBoardCount,
    covers: studio.covers,
    makers: tables.makers.map((maker) => ({ ...maker, ...hoursOf(maker.id, tables, span) })),
    spots: tables.spots,
    clays: tables.clays.map((clay) => toClay(clay, zone)),
    glazes: tables.glazes,
    supplies: tables.supplies,
    kilns: tables.kilns,
    moulds: tables.moulds,
    firingSchedules: tables.firingSchedules,
    designs: tables.designs,
    // Packed the day before: by the midnight with which the day begins.
    orders: orders.map(({ dueDate, ...order }) => ({ ...order, packedByMin: startOfDay(dueDate, zone) })),
    stock: tables.stock,
    pins: pins.map(({ startsAt, ...pin }) => ({ ...pin, startMin: minuteOf(startsAt) })),
    airReadings: toReadings(tables),
  }
}

/** What is logged for a spot that lives by the weather was read outside. */
function toReadings({ spots, airReadings }: StudioTables): Studio['airReadings'] {
  const outdoors = new Set(spots.filter(({ air }) => air.kind === 'outdoors').map(({ id }) => id))
  return airReadings.map(({ at, spotId, ...reading }) => ({
    ...reading,
    spotId: outdoors.has(spotId) ? OUTDOORS : spotId,
    minute: minuteOf(at),
  }))
}

/** Who makes can look in and mind a kiln as well: making hours are in all three. */
function hoursOf(
  makerId: string,
  { studio, hours, busyTimes }: StudioTables,
  { fromMin, horizonMin }: StudioSpan,
): Pick<Maker, 'makingHours' | 'lookInHours' | 'kilnWatchHours'> {
  const busy = busyTimes.filter((time) => time.makerId === makerId)
  const hoursFor = (purpose: HoursPurpose): Interval[] => {
    const rules = hours.filter((rule) => rule.makerId === makerId && rule.purpose === purpose)
    return intervalsOf(rules, busy, studio.zone, fromMin, horizonMin)
  }
  const makingHours = hoursFor('making')
  return {
    makingHours,
    lookInHours: unionOf([...makingHours, ...hoursFor('look-in')]),
    kilnWatchHours: unionOf([...makingHours, ...hoursFor('kiln-watch')]),
  }
}

/** A delivery counts from the morning after: nobody knows at what hour it comes. */
function toClay({ drying, deliveries, ...clay }: ClayRecord, zone: string): ClayBody {
  return {
    ...clay,
    drying: completedClay(drying, clay.shrinkage.length.dryingRatio),
    deliveries: deliveries.map(({ date, massKg }) => ({ minute: startOfDay(dayAfter(date, 1), zone), massKg })),
  }
}
