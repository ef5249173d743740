import { describe, expect, test } from 'vitest'
import type { StudioFile } from '#contract/studioFields.ts'
import { Refusal } from '#app/refusal.ts'
import { readStudioFile } from '#app/studio/readStudioFile.ts'
import { writeStudioFile } from '#app/studio/writeStudioFile.ts'
import { aFullStudioFile, anEmptyStudioFile, spoilt } from '../../support/studioFiles.ts'

const full = aFullStudioFile()

function refusalOf(text: string): Refusal {
  try {
    readStudioFile(text)
  } catch (error) {
    if (error instanceof Refusal) return error
    throw error
  }
  throw new Error('the file was read')
}

const at = (table: keyof StudioFile, id: string): number =>
  (full[table] as readonly { readonly id: string }[]).findIndex((record) => record.id === id)

describe('says the place and the rule of', () => {
  const tray = at('designs', 'tray')
  test.each<[what: string, path: (string | number)[], value: unknown, place: string, message: RegExp]>([
    [
      'a thickness in inches',
      ['designs', tray, 'parts', 0, 'thicknessMm'],
      0.25,
      'designs[0].parts[0].thicknessMm',
      /^Thickness must be between 1 and 80 mm, not 0\.25$/,
    ],
    [
      'a negative thickness',
      ['designs', tray, 'parts', 0, 'thicknessMm'],
      -7,
      'designs[0].parts[0].thicknessMm',
      /^Thickness must be between 1 and 80 mm, not -7$/,
    ],
    [
      'a thickness with its unit in the text',
      ['designs', tray, 'parts', 0, 'thicknessMm'],
      '7 mm',
      'designs[0].parts[0].thicknessMm',
      /not “7 mm”$/,
    ],
    [
      'a thickness under another name',
      ['designs', tray, 'parts', 0, 'thicknessIn'],
      0.25,
      'designs[0].parts[0].thicknessIn',
      /no such field here.*thicknessMm/,
    ],
    [
      'a length that is missing',
      ['designs', tray, 'lengthMm'],
      undefined,
      'designs[0].lengthMm',
      /^Length is missing; it must be between 5 and 2000 mm$/,
    ],
    [
      'a humidity in percent',
      ['airReadings', 3, 'rh'],
      55,
      'airReadings[3].rh',
      /^Relative humidity must be between 0 and 1 \(30 % is 0\.3\), not 55$/,
    ],
    [
      'a temperature in Fahrenheit',
      ['airReadings', 3, 'tempC'],
      68,
      'airReadings[3].tempC',
      /between -40 and 60 °C, not 68$/,
    ],
    [
      'a zone that is none',
      ['studio', 'zone'],
      'Europe/Lundon',
      'studio.zone',
      /name of a time zone such as Europe\/London, not “Europe\/Lundon”$/,
    ],
    ['a zone without daylight saving', ['studio', 'zone'], '+01:00', 'studio.zone', /name of a time zone/],
    [
      'a 30 February',
      ['orders', 0, 'dueDate'],
      '2026-02-30',
      'orders[0].dueDate',
      /date such as 2026-03-02, not “2026-02-30”$/,
    ],
    [
      'a moment without zone',
      ['entries', 0, 'happenedAt'],
      '2026-02-20T10:00:00',
      'entries[0].happenedAt',
      /moment in UTC such as/,
    ],
    ['a cone that is none', ['clays', 0, 'coneLow'], '6.5', 'clays[0].coneLow', /one of: 022, .*, 14, not “6\.5”$/],
    ['cones the wrong way round', ['clays', 0, 'coneHigh'], '06', 'clays[0].coneHigh', /leading zero counts/],
    [
      'a rule of a calendar that is none',
      ['hours', 0, 'rrule'],
      'every Monday',
      'hours[0].rrule',
      /recurrence rule by days, such as FREQ=WEEKLY;BYDAY=MO,WE, not “every Monday”$/,
    ],
    ['a rule by the hour', ['hours', 0, 'rrule'], 'FREQ=HOURLY', 'hours[0].rrule', /recurrence rule by days/],
    [
      'a kind of entry that is none',
      ['entries', 0, 'kind'],
      'glased',
      'entries[0].kind',
      /with one of: studio-edited, received/,
    ],
    [
      'an entry with the body of another',
      ['entries', 0, 'body'],
      { runId: 'x' },
      'entries[0].body.designId',
      /The design is missing/,
    ],
    [
      'a busy time that ends before it starts',
      ['busyTimes', 0, 'end'],
      '2020-01-01T10:00',
      'busyTimes[0].end',
      /must end after it starts/,
    ],
    [
      'bisque with a glaze',
      ['stock', at('stock', 'vases-bisque'), 'glazeId'],
      'milk',
      'stock[1].glazeId',
      /Bisque has no glaze yet/,
    ],
    ['an order without lines', ['orders', 1, 'lines'], [], 'orders[1].lines', /a list of 1 to 500, not a list of 0$/],
    [
      'a firing that falls on its way up',
      ['firingSchedules', 0, 'segments', 1, 'targetC'],
      50,
      'firingSchedules[0].segments[1].targetC',
      /must lead above the one before it/,
    ],
    ['a table that is missing', ['kilns'], undefined, 'kilns', /^The list of kilns is missing/],
    ['a field that would be the prototype', ['studio', '__proto__'], {}, 'studio.__proto__', /no such field here/],
  ])('%s', (_, path, value, place, message) => {
    const { code, fields } = refusalOf(spoilt(full, path, value))
    expect(code).toBe('invalid')
    expect(fields.map((field) => field.path)).toContain(place)
    expect(fields.find((field) => field.path === place)!.message).toMatch(message)
  })
})

describe('says which thing is not there for', () => {
  test.each<[what: string, path: (string | number)[], place: string, message: RegExp]>([
    [
      'an order',
      ['orders', 1, 'lines', 0, 'designId'],
      'orders[1].lines[0].designId',
      /^“Mill House, mugs” names the design “gone”, which is not in designs; add it or name another$/,
    ],
    ['an order line’s glaze', ['orders', 1, 'lines', 0, 'glazeId'], 'orders[1].lines[0].glazeId', /glaze “gone”/],
    ['stock', ['stock', 0, 'designId'], 'stock[0].designId', /design “gone”/],
    ['a kiln', ['kilns', 0, 'supplyId'], 'kilns[0].supplyId', /^“Round kiln” names the supply “gone”/],
    ['a design’s clay', ['designs', 0, 'clayId'], 'designs[0].clayId', /clay “gone”/],
    ['a design’s firing', ['designs', 0, 'bisqueScheduleId'], 'designs[0].bisqueScheduleId', /firing schedule “gone”/],
    ['a design’s glaze', ['designs', 0, 'glazeIds', 1], 'designs[0].glazeIds[1]', /glaze “gone”/],
    [
      'a step’s mould',
      ['designs', at('designs', 'plate'), 'steps', 1, 'mouldId'],
      'designs[3].steps[1].mouldId',
      /mould “gone”/,
    ],
    ['hours', ['hours', 0, 'makerId'], 'hours[0].makerId', /maker “gone”/],
    ['a busy time', ['busyTimes', 0, 'makerId'], 'busyTimes[0].makerId', /maker “gone”/],
    ['a reading', ['airReadings', 0, 'spotId'], 'airReadings[0].spotId', /spot “gone”/],
  ])('%s', (_, path, place, message) => {
    expect(refusalOf(spoilt(full, path, 'gone')).fields).toEqual([
      { path: place, message: expect.stringMatching(message) },
    ])
  })

  test('a part of a step', () => {
    const text = spoilt(full, ['designs', at('designs', 'mug'), 'steps', 1, 'partIds', 0], 'lid')
    expect(refusalOf(text).fields).toEqual([
      {
        path: 'designs[5].steps[1].partIds[0]',
        message: '“Slab mug” has no part “lid” for the step “Roll up and join the body”',
      },
    ])
  })

  test('a bisque that is a glaze firing', () => {
    const text = spoilt(full, ['designs', 0, 'bisqueScheduleId'], 'medium-glaze-6')
    expect(refusalOf(text).fields[0]!.message).toBe(
      '“Tea tray” needs a bisque firing here, and “Medium glaze, cone 6” is a glaze firing',
    )
  })
})

describe('refuses', () => {
  test('two records with one id', () => {
    const { fields } = refusalOf(spoilt(full, ['orders', 2, 'id'], full.orders[0]!.id))
    expect(fields).toEqual([
      { path: 'orders[2].id', message: 'The id “cafe-plates” is already that of orders[0]; ids must differ' },
    ])
  })

  test('two pins that fix one step at two times', () => {
    const pin = { id: 'a', runId: 'run-trays-2', stepId: 'join', startsAt: '2026-03-03T10:00:00.000Z', makerId: null }
    const text = spoilt(full, ['pins'], [pin, { ...pin, id: 'b', startsAt: '2026-03-04T10:00:00.000Z' }])
    expect(refusalOf(text).fields).toEqual([
      { path: 'pins[1]', message: expect.stringContaining('pins[0] already fixes the step “join”') },
    ])
  })

  test('a file that was cut off, with the place where', () => {
    const text = writeStudioFile(full)
    const cut = text.slice(0, text.indexOf('"kilns"') + 40)
    const lines = cut.split('\n')
    const { message } = refusalOf(cut)
    expect(message).toBe(
      `The file ends too early, at line ${lines.length}, column ${lines.at(-1)!.length + 1}: it was cut off. Export or copy it again.`,
    )
  })

  test('a text that is not JSON, with the place where', () => {
    expect(refusalOf('{\n  "format": wareboard\n}').fields[0]!.path).toBe('line 2, column 13')
  })

  test.each([
    ['nothing', ''],
    ['a list', '[]'],
    ['a number', '7'],
    ['another format', '{"format":"other"}'],
  ])('%s', (_, text) => {
    expect(refusalOf(text).code).toBe('invalid')
  })

  test('a file of a later version, saying so and nothing else', () => {
    expect(refusalOf(spoilt(full, ['version'], 2)).message).toBe(
      'The file is of version 2, and this program reads version 1; update the program.',
    )
  })

  test('lists nested a million deep, without falling over', () => {
    expect(refusalOf('['.repeat(1_000_000)).message).toMatch(/ends too early/)
  })

  test('all at once what is wrong, to a limit', () => {
    const text = spoilt(
      full,
      ['airReadings'],
      full.airReadings.map((reading) => ({ ...reading, rh: 55 })),
    )
    const { fields, message } = refusalOf(text)
    expect(fields).toHaveLength(50)
    expect(message).toContain(`and ${full.airReadings.length - 1} more`)
  })
})

describe('accepts', () => {
  const reads = (file: StudioFile) => expect(readStudioFile(JSON.stringify(file))).toEqual(file)

  test('the full studio', () => reads(full))
  test('an empty studio', () => reads(anEmptyStudioFile()))
  test('a maker without hours', () => reads({ ...anEmptyStudioFile(), makers: full.makers }))
  test('a due date in the past, which is a fact', () =>
    reads({ ...full, orders: full.orders.map((order) => ({ ...order, dueDate: '1999-12-31' })) }))
  test('a logbook that tells of designs, spots and kilns that are gone', () =>
    reads({ ...anEmptyStudioFile(), entries: full.entries }))
  test('a mark of byte order before the file', () =>
    expect(readStudioFile(`\uFEFF${writeStudioFile(full)}`).studio).toEqual(full.studio))
})
