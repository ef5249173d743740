import { STUDIO_FORMAT, STUDIO_VERSION } from '#contract/studioFields.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { exampleClock } from './example/clock.ts'
import { exampleDesigns } from './example/designs.ts'
import { exampleFiringSchedules, exampleKilns, exampleSupplies } from './example/kilns.ts'
import { exampleEntries } from './example/logbook.ts'
import { exampleOrders, exampleStock } from './example/orders.ts'
import { exampleBusyTimes, exampleHours, exampleMakers } from './example/people.ts'
import {
  exampleAir,
  exampleClays,
  exampleGlazes,
  exampleMoulds,
  exampleSpots,
  exampleStudioRecord,
} from './example/places.ts'

/**
 * A studio to walk round in, of our own invention: two makers, two kilns, six designs, orders for six weeks, and runs
 * in every stage. It is as of seven in the morning of the day it is asked for, whatever day that is.
 * @param today YYYY-MM-DD in the example's zone
 * @throws RangeError when it is no date
 */
export function exampleStudioFile(today: string): StudioFile {
  const clock = exampleClock(today)
  return {
    format: STUDIO_FORMAT,
    version: STUDIO_VERSION,
    asOf: clock.instant(0, '07:00'),
    studio: exampleStudioRecord,
    makers: exampleMakers,
    hours: exampleHours(clock),
    busyTimes: exampleBusyTimes(clock),
    spots: exampleSpots,
    clays: exampleClays(clock),
    glazes: exampleGlazes,
    supplies: exampleSupplies,
    kilns: exampleKilns,
    moulds: exampleMoulds,
    firingSchedules: exampleFiringSchedules,
    designs: exampleDesigns,
    orders: exampleOrders(clock),
    stock: exampleStock,
    pins: [],
    airReadings: exampleAir(clock),
    entries: exampleEntries(clock),
  }
}
