/** Whole studios as they stand in a studio file, for tests of all that keeps and carries them. */
import { STUDIO_FORMAT, STUDIO_VERSION } from '#contract/studioFields.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { aStudioRecord, entryRecords } from './entryRecords.ts'
import { aClay, aDesign, aStep, traySteps } from './designBuilders.ts'
import { aBisqueSchedule, aGlazeSchedule, aKiln, aSupply } from './kilnBuilders.ts'
import { aGlaze, aMould, aSpot, aStockItem } from './studioBuilders.ts'

/** Something in every table, and every field that may be left out once left out and once not. */
export function aStudioFile(given: Partial<StudioFile> = {}): StudioFile {
  return {
    format: STUDIO_FORMAT,
    version: STUDIO_VERSION,
    asOf: '2026-03-02T08:00:00.000Z',
    studio: aStudioRecord,
    makers: [
      { id: 'jo', name: 'Jo', skills: [] },
      { id: 'mara', name: 'Mara', skills: ['slab', 'join'] },
    ],
    hours: [
      {
        id: 'mara-making',
        makerId: 'mara',
        purpose: 'making',
        rrule: 'FREQ=WEEKLY;BYDAY=MO,WE',
        startDate: '2026-03-02',
        startTime: '09:00',
        durationMin: 240,
        exceptDates: ['2026-03-04'],
        extraDates: [],
      },
    ],
    busyTimes: [{ id: 'dentist', makerId: 'mara', start: '2026-03-09T10:00', end: '2026-03-09T11:30' }],
    spots: [aSpot(), aSpot({ id: 'shelf', name: 'Shelf by the heater', air: { kind: 'outdoors', setPointC: 18.5 } })],
    clays: [
      {
        ...aClay(),
        id: 'stoneware',
        coneLow: '5',
        coneHigh: '7',
        drying: { rimFactor: { value: 1.7, spread: 0.1, kind: 'times' } },
        deliveries: [{ date: '2026-03-20', massKg: 250 }],
      },
    ],
    glazes: [
      { ...aGlaze(), id: 'blue', coneLow: '5', coneHigh: '6', onHandL: 3.25 },
      { ...aGlaze(), coneLow: '5', coneHigh: '7' },
    ],
    supplies: [aSupply()],
    kilns: [aKiln()],
    moulds: [aMould()],
    firingSchedules: [
      { ...aBisqueSchedule(), id: 'bisque-06', cone: '06' },
      { ...withoutOptional(aGlazeSchedule()), id: 'glaze-6' },
    ],
    designs: [
      aDesign({
        id: 'box',
        name: 'Box',
        steps: [aStep({ id: 'drape', kind: 'drape', mouldId: 'hump' }), ...traySteps],
      }),
      aDesign(),
    ],
    orders: [
      {
        id: 'fair',
        kind: 'market',
        name: 'Spring fair',
        dueDate: '2026-04-18',
        weight: 1,
        oddsWanted: 0.9,
        lines: [
          { id: 'z', designId: 'tray', glazeId: null, count: 12 },
          { id: 'a', designId: 'box', glazeId: 'blue', count: 4 },
        ],
      },
    ],
    stock: [aStockItem()],
    pins: [{ id: 'pin', runId: 'run', stepId: 'join', startsAt: '2026-03-03T10:00:00.000Z', makerId: 'mara' }],
    airReadings: [
      { spotId: 'rack', at: '2026-03-01T08:00:00.000Z', tempC: 17.3, rh: 0.61 },
      { spotId: 'rack', at: '2026-03-01T08:10:00.250Z', tempC: 17.4, rh: 0.605 },
    ],
    entries: entryRecords(3),
    ...given,
  }
}

const withoutOptional = ({ name, kind, segments }: ReturnType<typeof aGlazeSchedule>) => ({ name, kind, segments })
