/** What has happened in the example: runs in every stage, from slabs cut last evening to mugs that wait for their glaze firing. */
import type { EntryRecord } from '#contract/entry.ts'
import type { ExampleClock } from './clock.ts'

/** An entry without what is the same for all of them. */
type Told = { [Kind in EntryRecord['kind']]: TellingOf<Kind> }[EntryRecord['kind']]
type TellingOf<Kind extends EntryRecord['kind']> = readonly [
  days: number,
  time: string,
  by: 'ines' | 'rafe',
  kind: Kind,
  body: Extract<EntryRecord, { kind: Kind }>['body'],
]

const longRack = { spotId: 'long-rack' } as const
const loose = { cover: 'loose', ...longRack } as const
const sealed = { cover: 'sealed', ...longRack } as const
const inKiln = (runId: string, designId: string, count: number) => ({ runId, designId, glazeId: null, count })
const allGood = (runId: string, designId: string, count: number) => ({
  ...inKiln(runId, designId, count),
  good: count,
  second: 0,
  refire: 0,
  lost: 0,
  cause: null,
})

/** Mugs and soap dishes that went through a bisque last week; the mugs are glazed since yesterday. */
const firstLoad: readonly Told[] = [
  [-20, '10:10', 'ines', 'cut', { runId: 'run-mugs-1', designId: 'mug', count: 11, ...loose }],
  [-19, '10:40', 'ines', 'joined', { runId: 'run-mugs-1', count: 11, stepId: 'body', ...sealed }],
  [-18, '11:20', 'ines', 'joined', { runId: 'run-mugs-1', count: 11, stepId: 'handle', ...sealed }],
  [-16, '16:40', 'ines', 'covered', { runId: 'run-mugs-1', cover: 'loose' }],
  [-15, '16:45', 'ines', 'covered', { runId: 'run-mugs-1', cover: 'open' }],
  [-13, '07:20', 'ines', 'lost', { runId: 'run-mugs-1', count: 1, cause: 'cracked' }],
  [-17, '11:00', 'rafe', 'cut', { runId: 'run-soap-1', designId: 'soap-dish', count: 12, ...loose }],
  [-16, '10:30', 'rafe', 'joined', { runId: 'run-soap-1', count: 12, stepId: 'feet', ...sealed }],
  [-15, '10:15', 'rafe', 'covered', { runId: 'run-soap-1', cover: 'loose' }],
  [-14, '16:50', 'ines', 'covered', { runId: 'run-soap-1', cover: 'open' }],
  [
    -9,
    '07:00',
    'ines',
    'loaded',
    {
      firingId: 'firing-1',
      kilnId: 'square',
      firingKind: 'bisque',
      scheduleId: 'medium-bisque-06',
      members: [inKiln('run-mugs-1', 'mug', 10), inKiln('run-soap-1', 'soap-dish', 12)],
    },
  ],
  [-9, '07:40', 'ines', 'fired', { firingId: 'firing-1', candleHours: 2 }],
  [-9, '20:30', 'ines', 'cone-read', { firingId: 'firing-1', cone: '06', bend: 'down' }],
  [-9, '20:35', 'ines', 'meter-read', { firingId: 'firing-1', energyKwh: 33 }],
  [-8, '20:40', 'ines', 'opened', { firingId: 'firing-1' }],
  [
    -7,
    '09:20',
    'ines',
    'unloaded',
    { firingId: 'firing-1', sorted: [allGood('run-mugs-1', 'mug', 10), allGood('run-soap-1', 'soap-dish', 12)] },
  ],
  [
    -1,
    '14:10',
    'ines',
    'glazed',
    { runId: 'run-mugs-1', designId: 'mug', intoRunId: 'run-mugs-1', glazeId: 'moss', count: 10 },
  ],
]

/** Trays and vases that cool in the round kiln. */
const secondLoad: readonly Told[] = [
  [-13, '10:00', 'ines', 'cut', { runId: 'run-trays-1', designId: 'tray', count: 8, ...loose }],
  [-12, '11:15', 'ines', 'felt', { runId: 'run-trays-1', stepId: 'join', verdict: 'just right' }],
  [-12, '13:20', 'ines', 'joined', { runId: 'run-trays-1', count: 8, stepId: 'join', ...sealed }],
  [-10, '16:40', 'ines', 'covered', { runId: 'run-trays-1', cover: 'loose' }],
  [-9, '16:40', 'ines', 'covered', { runId: 'run-trays-1', cover: 'open' }],
  [-12, '10:30', 'rafe', 'cut', { runId: 'run-vases-1', designId: 'vase', count: 7, ...loose }],
  [-11, '12:40', 'rafe', 'joined', { runId: 'run-vases-1', count: 7, stepId: 'join', ...sealed }],
  [-9, '16:45', 'ines', 'covered', { runId: 'run-vases-1', cover: 'loose' }],
  [-8, '07:30', 'ines', 'covered', { runId: 'run-vases-1', cover: 'open' }],
  [-5, '07:15', 'ines', 'lost', { runId: 'run-vases-1', count: 1, cause: 'warped' }],
  [
    -1,
    '06:50',
    'ines',
    'loaded',
    {
      firingId: 'firing-2',
      kilnId: 'round',
      firingKind: 'bisque',
      scheduleId: 'medium-bisque-06',
      members: [inKiln('run-trays-1', 'tray', 8), inKiln('run-vases-1', 'vase', 6)],
    },
  ],
  [-1, '07:45', 'ines', 'fired', { firingId: 'firing-2', candleHours: 2 }],
  [-1, '22:00', 'ines', 'temperature-read', { firingId: 'firing-2', tempC: 775 }],
  [0, '06:40', 'ines', 'temperature-read', { firingId: 'firing-2', tempC: 245 }],
]

/** Greenware: slabs, ware that evens out, ware that dries under plastic, and ware that stands open. */
const greenware: readonly Told[] = [
  [-12, '09:30', 'ines', 'scrap-dried', { runId: null, clayId: 'pale', moistureDb: 0.247 }],
  [-9, '10:00', 'ines', 'cut', { runId: 'run-mugs-2', designId: 'mug', count: 12, ...loose }],
  [-8, '10:20', 'rafe', 'joined', { runId: 'run-mugs-2', count: 12, stepId: 'body', ...sealed }],
  [-7, '11:30', 'ines', 'joined', { runId: 'run-mugs-2', count: 12, stepId: 'handle', ...sealed }],
  [-5, '16:50', 'ines', 'covered', { runId: 'run-mugs-2', cover: 'loose' }],
  [-4, '17:00', 'ines', 'covered', { runId: 'run-mugs-2', cover: 'open' }],
  [-3, '07:25', 'ines', 'weighed', { runId: 'run-mugs-2', massKg: 4.61 }],
  [-4, '10:20', 'rafe', 'cut', { runId: 'run-planters-1', designId: 'planter', count: 6, ...loose }],
  [-3, '11:00', 'rafe', 'joined', { runId: 'run-planters-1', count: 6, stepId: 'join', ...sealed }],
  [-2, '10:10', 'ines', 'refined', { runId: 'run-planters-1', count: 6, stepId: 'holes', ...sealed }],
  [-4, '12:50', 'ines', 'cut', { runId: 'run-plates-1', designId: 'plate', count: 8, cover: 'open', ...longRack }],
  [-4, '20:40', 'ines', 'joined', { runId: 'run-plates-1', count: 8, stepId: 'drape', ...loose }],
  [-2, '11:10', 'ines', 'joined', { runId: 'run-plates-1', count: 8, stepId: 'release', ...loose }],
  [-1, '20:25', 'ines', 'cut', { runId: 'run-trays-2', designId: 'tray', count: 8, ...loose }],
]

/** Plates from the shelf that have long been with the café. */
const delivered: readonly Told[] = [
  [-10, '16:35', 'ines', 'delivered', { orderId: 'cafe-plates', designId: 'plate', glazeId: 'milk', count: 4 }],
]

export function exampleEntries(clock: ExampleClock): EntryRecord[] {
  return [...firstLoad, ...secondLoad, ...greenware, ...delivered]
    .map(([days, time, by, kind, body]) => ({ happenedAt: clock.instant(days, time), by, kind, body }))
    .toSorted((a, b) => (a.happenedAt < b.happenedAt ? -1 : 1))
    .map(
      ({ happenedAt, by, kind, body }, index) =>
        ({
          id: `entry-${String(index + 1).padStart(3, '0')}`,
          version: 1,
          kind,
          happenedAt,
          roughMin: 0,
          deviceId: 'wall-tablet',
          deviceSeq: index + 1,
          by,
          body,
          hint: null,
        }) as EntryRecord,
    )
}
