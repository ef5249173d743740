import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Entry } from '#core/logbook/entry.ts'
import { foldLog, logStateOf } from '#core/logbook/fold.ts'
import type { LogState, RunState } from '#core/logbook/state.ts'
import { seededRng } from '#core/rng.ts'
import { run as soak } from '../../soak/logs.ts'
import { aLog, anEntry } from '../../support/entryBuilders.ts'
import { anOrderlyLog, aRandomLog, logDesigns, shuffled } from '../../support/randomLog.ts'
import { aStockItem, aStudio, at } from '../../support/studioBuilders.ts'

const studio = aStudio({ designs: logDesigns })
const stateOf = (...entries: readonly Entry[]): LogState => logStateOf(studio, aLog(...entries))
const runOf = (state: LogState, id: string): RunState => state.runs.find((run) => run.id === id)!
const codes = ({ questions }: LogState) => questions.map(({ entryId, code }) => `${entryId} ${code}`)
const counts = ({ runs }: LogState) => Object.fromEntries(runs.map(({ id, stage, count }) => [id, `${count} ${stage}`]))

const rack = { cover: 'loose', spotId: 'rack' } as const
const sealed = { cover: 'sealed', spotId: 'rack' } as const
const cut6 = anEntry('cut', at(0, 10), { runId: 'r', designId: 'tray', count: 6, ...rack })
const cutPlanter = anEntry('cut', at(0, 10), { runId: 'p', designId: 'planter', count: 4, ...rack })
const joined = (count: number, minute = at(1, 10), runId = 'r') =>
  anEntry('joined', minute, { runId, count, stepId: 'join', ...sealed })
const planterStep = (stepId: string, hour: number, count = 4) =>
  anEntry('joined', at(1, hour), { runId: 'p', count, stepId, ...sealed })
const ofRun = (runId: string, count: number, firing: 'bisque' | 'glaze', glazeId: string | null = null) => ({
  firingId: `${firing} firing`,
  kilnId: 'round-kiln',
  firingKind: firing,
  scheduleId: 'any',
  members: [{ runId, designId: 'tray', glazeId, count }],
})
const sortedOf = (runId: string | null, sort: { good?: number; second?: number; refire?: number; lost?: number }) => {
  const { good = 0, second = 0, refire = 0, lost = 0 } = sort
  const count = good + second + refire + lost
  return { runId, designId: 'tray', glazeId: null, count, good, second, refire, lost, cause: null }
}
const bisqued = [
  cut6,
  joined(6),
  anEntry('loaded', at(8, 9), ofRun('r', 6, 'bisque')),
  anEntry('fired', at(8, 10), { firingId: 'bisque firing', candleHours: 2 }),
]
const unloadedBisque = (...sorted: ReturnType<typeof sortedOf>[]) =>
  anEntry('unloaded', at(9, 15), { firingId: 'bisque firing', sorted })
const allBisque = [...bisqued, unloadedBisque(sortedOf('r', { good: 6 }))]
const glazeAll = anEntry('glazed', at(10, 9), {
  runId: 'r',
  designId: 'tray',
  intoRunId: 'r',
  glazeId: 'white',
  count: 6,
})
const fired = [
  ...allBisque,
  glazeAll,
  anEntry('loaded', at(11, 9), ofRun('r', 6, 'glaze', 'white')),
  anEntry('unloaded', at(12, 15), {
    firingId: 'glaze firing',
    sorted: [sortedOf('r', { good: 3, second: 1, refire: 1, lost: 1 })],
  }),
]

describe('a run on its way', () => {
  test('is clay when cut, and drying once its last clay step is done', () => {
    expect(runOf(stateOf(cut6), 'r')).toMatchObject({
      stage: 'clay',
      count: 6,
      cutMin: at(0, 10),
      doneStepIds: ['cut'],
    })
    const dry = runOf(stateOf(cut6, joined(6)), 'r')
    expect(dry).toMatchObject({ stage: 'drying', doneStepIds: ['cut', 'join'], lastStepMin: at(1, 10) })
    expect(dry.waits).toEqual([
      { fromMin: at(0, 10), ...rack },
      { fromMin: at(1, 10), ...sealed },
    ])
  })

  test('a move keeps the cover, a cover keeps the spot, a turn and water are noted', () => {
    const state = stateOf(
      cut6,
      anEntry('moved', at(0, 12), { runId: 'r', spotId: 'heater' }),
      anEntry('covered', at(0, 13), { runId: 'r', cover: 'sealed' }),
      anEntry('turned', at(0, 14), { runId: 'r' }),
      anEntry('dampened', at(0, 14), { runId: 'r' }),
    )
    expect(runOf(state, 'r').waits.slice(1)).toEqual([
      { fromMin: at(0, 12), cover: 'loose', spotId: 'heater' },
      { fromMin: at(0, 13), cover: 'sealed', spotId: 'heater' },
      { fromMin: at(0, 14), cover: 'sealed', spotId: 'heater', turned: true, dampened: true },
    ])
  })

  test('goes through both firings to the shelf and out of the door', () => {
    const state = stateOf(
      ...fired,
      anEntry('finished', at(13, 9), { runId: 'r', count: 3 }),
      anEntry('delivered', at(14, 9), { orderId: 'order', designId: 'tray', glazeId: 'white', count: 2 }),
    )
    expect(state.questions).toEqual([])
    // 6 in: 1 finished on the shelf, 2 delivered, 1 second, 1 to fire again, 1 lost.
    expect(counts(state)).toEqual({ r: '0 gone', 'r/e8': '1 refire' })
    expect(state.shelf).toEqual([
      { designId: 'tray', stage: 'finished', glazeId: 'white', count: 1 },
      { designId: 'tray', stage: 'second', glazeId: 'white', count: 1 },
    ])
    expect(state.delivered).toEqual([{ orderId: 'order', designId: 'tray', glazeId: 'white', count: 2 }])
    expect(state.losses).toMatchObject([{ stage: 'in glaze', count: 1 }])
    expect(state.firings.map(({ id, unloadedMin }) => [id, unloadedMin])).toEqual([
      ['bisque firing', at(9, 15)],
      ['glaze firing', at(12, 15)],
    ])
  })

  test('bisque that is sorted to no run goes on the shelf, and is glazed from there', () => {
    const state = stateOf(
      ...bisqued,
      unloadedBisque(sortedOf(null, { good: 5, lost: 1 })),
      anEntry('glazed', at(10, 9), { runId: null, designId: 'tray', intoRunId: 'blue', glazeId: 'blue', count: 2 }),
    )
    expect(state.shelf).toEqual([{ designId: 'tray', stage: 'bisque', glazeId: null, count: 3 }])
    expect(runOf(state, 'blue')).toMatchObject({ stage: 'glazed', count: 2, glazeId: 'blue' })
    expect(state.questions).toEqual([])
  })

  test('what is to be bisque fired again dries on; what is left in a kiln is asked about', () => {
    const state = stateOf(...bisqued, unloadedBisque(sortedOf('r', { good: 3, refire: 2 })))
    expect(counts(state)).toEqual({ r: '1 in bisque', 'r/e5': '2 drying', 'r/e5+': '3 bisque' })
    expect(codes(state)).toEqual(['e5 count-does-not-add-up'])
  })
})

describe('parts of runs', () => {
  test('the pieces done go on as a run named after run and entry, the rest stays', () => {
    const state = stateOf(cut6, joined(4), anEntry('covered', at(1, 11), { runId: 'r', cover: 'tucked' }))
    expect(counts(state)).toEqual({ r: '2 clay', 'r/e2': '4 drying' })
    expect(runOf(state, 'r').waits.at(-1)?.cover).toBe('tucked')
    expect(runOf(state, 'r/e2')).toMatchObject({ parentId: 'r', cutMin: at(0, 10), doneStepIds: ['cut', 'join'] })
    expect(runOf(state, 'r/e2').waits.at(-1)?.cover).toBe('sealed')
  })

  test('an entry from a device that has not heard of the parting goes to the part that it fits', () => {
    const state = stateOf(cutPlanter, planterStep('drape', 9, 3), planterStep('release', 12, 3))
    expect(counts(state)).toEqual({ p: '1 clay', 'p/e2': '3 clay' })
    expect(runOf(state, 'p/e2').doneStepIds).toEqual(['cut', 'drape', 'release'])
    expect(state.questions).toEqual([])
  })

  test('a load of both parts under the old name finds both', () => {
    const state = stateOf(cut6, joined(4), joined(2, at(1, 14)), anEntry('loaded', at(8, 9), ofRun('r', 6, 'bisque')))
    expect(counts(state)).toEqual({ r: '2 in bisque', 'r/e2': '4 in bisque' })
    expect(state.firings[0]!.members.map(({ runId, count }) => [runId, count])).toEqual([
      ['r', 2],
      ['r/e2', 4],
    ])
    expect(state.questions).toEqual([])
  })

  test('a late entry about something else renames nothing', () => {
    const entries = aLog(cut6, joined(2), joined(2, at(1, 14)))
    const early = anEntry(
      'lost',
      at(1, 9),
      { runId: 'r', count: 1, cause: 'broken' },
      { deviceId: 'phone', id: 'late' },
    )
    const ids = (log: readonly Entry[]) => logStateOf(studio, log).runs.map(({ id }) => id)
    expect(ids([...entries, early])).toEqual(ids(entries))
  })

  test('a second cut into a run has its own cut time; the same planned cut told by two people is asked about', () => {
    const hint = { planId: 'plan', stepId: 'cut' }
    const more = anEntry('cut', at(0, 13), { runId: 'r', designId: 'tray', count: 2, ...rack })
    expect(runOf(stateOf(cut6, more), 'r/e2')).toMatchObject({ count: 2, cutMin: at(0, 13) })
    const twice = stateOf({ ...cut6, hint }, { ...cut6, hint, deviceId: 'wall' })
    expect(codes(twice)).toEqual(['e2 made-twice'])
    expect(twice.cut).toHaveLength(1)
  })
})

describe('what does not fit becomes a question', () => {
  const tooMany = joined(9)
  test.each([
    ['more pieces than there are: those there are taken', [cut6, tooMany], 'more-than-there-are', { r: '6 drying' }],
    ['a run nobody knows', [joined(2)], 'unknown-run', {}],
    [
      'a step the design has not',
      [cut6, anEntry('refined', at(1), { runId: 'r', count: 6, stepId: 'x', ...rack })],
      'unknown-step',
      { r: '6 clay' },
    ],
    [
      'a step done before',
      [cutPlanter, planterStep('drape', 9), planterStep('drape', 10)],
      'made-twice',
      { p: '4 clay' },
    ],
    [
      'a step with one left out: believed',
      [cutPlanter, planterStep('release', 9)],
      'step-out-of-order',
      { p: '4 clay' },
    ],
    [
      'finished before it was fired',
      [cut6, anEntry('finished', at(1), { runId: 'r', count: 6 })],
      'wrong-stage',
      { r: '6 clay' },
    ],
    ['a firing nobody loaded', [anEntry('fired', at(1), { firingId: 'f', candleHours: 0 })], 'unknown-firing', {}],
    [
      'delivered what is not there',
      [anEntry('delivered', at(1), { orderId: 'o', designId: 'tray', glazeId: null, count: 2 })],
      'not-on-the-shelf',
      {},
    ],
    ['no number of pieces', [cut6, joined(0)], 'count-does-not-add-up', { r: '6 clay' }],
    [
      'a design nobody knows: the ware is there all the same',
      [anEntry('cut', at(0), { runId: 'q', designId: 'x', count: 2, ...rack })],
      'unknown-design',
      { q: '2 clay' },
    ],
    [
      'cut as something else',
      [cut6, anEntry('cut', at(1), { runId: 'r', designId: 'planter', count: 2, ...rack })],
      'design-differs',
      { r: '6 clay' },
    ],
  ] as const)('%s', (_what, entries, code, stands) => {
    const state = stateOf(...entries)
    expect(state.questions.map((question) => question.code)).toEqual([code])
    expect(counts(state)).toEqual(stands)
  })

  test('a kiln loaded again was emptied, and its load is asked about', () => {
    const next = anEntry('loaded', at(20, 9), { ...ofRun('s', 2, 'bisque'), firingId: 'next' })
    const state = stateOf(
      ...bisqued,
      anEntry('cut', at(15), { runId: 's', designId: 'tray', count: 2, ...rack }),
      joined(2, at(16), 's'),
      next,
    )
    expect(state.questions).toEqual([
      { entryId: 'e7', code: 'kiln-already-loaded', params: { kiln: 'round-kiln', firing: 'bisque firing' } },
    ])
    expect(state.firings.find(({ id }) => id === 'bisque firing')?.unloadedMin).toBe(at(20, 9))
    expect(counts(state)).toEqual({ r: '6 in bisque', s: '2 in bisque' })
  })
})

test('ware that is glazed is out of its kiln, whoever forgot to say so; the rest of the load is asked about', () => {
  const glazeFour = { ...glazeAll, body: { ...glazeAll.body, count: 4 } } as Entry
  const state = stateOf(...bisqued, glazeFour)
  expect(counts(state)).toEqual({ r: '2 in bisque', 'r/e5': '4 glazed' })
  expect(state.firings[0]!.unloadedMin).toBe(at(10, 9))
  expect(codes(state)).toEqual(['e5 step-out-of-order', 'e5 count-does-not-add-up'])
  expect(stateOf(...bisqued, glazeFour, unloadedBisque(sortedOf('r', { good: 6 }))).questions).toEqual([])
})

describe('rough times', () => {
  const cutThisMorning = { ...cut6, happenedMin: at(0, 11), roughMin: 180 }
  test('a joining at eleven fits after a cut "this morning" that is folded later', () => {
    const state = stateOf(cutThisMorning, joined(6, at(0, 10, 30)))
    expect(state.questions).toEqual([])
    expect(runOf(state, 'r').stage).toBe('drying')
  })
  test('but not after one that was surely later', () => {
    expect(codes(stateOf({ ...cutThisMorning, roughMin: 10 }, joined(6, at(0, 10, 30))))).toEqual(['e2 unknown-run'])
  })
  test('at one minute the order of devices does not matter', () => {
    const cutOnZ = { ...cut6, deviceId: 'z' }
    const joinOnA = { ...joined(6, at(0, 10)), deviceId: 'a' }
    expect(stateOf(cutOnZ, joinOnA).questions).toEqual([])
  })
})

describe('corrections', () => {
  const correction = (id: string, entryId: string, minute = at(2)) => anEntry('corrected', minute, { entryId }, { id })
  const log = aLog(cut6, joined(6))
  test('a corrected entry is as if it had never been, whenever the correction happened', () => {
    const state = logStateOf(studio, [...log, correction('c', 'e2', at(-9))])
    expect(state.voided).toEqual(['e2'])
    expect(runOf(state, 'r').stage).toBe('clay')
  })
  test('a corrected correction brings it back; correcting that takes it away again', () => {
    const back = [...log, correction('c', 'e2'), correction('d', 'c')]
    expect(logStateOf(studio, back)).toMatchObject({ voided: ['c'], runs: [{ stage: 'drying' }] })
    expect(logStateOf(studio, [...back, correction('f', 'd')])).toMatchObject({
      voided: ['d', 'e2'],
      runs: [{ stage: 'clay' }],
    })
  })
  test('one that corrects nothing known, or goes round in a circle, is asked about', () => {
    const state = logStateOf(studio, [...log, correction('c', 'd'), correction('d', 'c'), correction('f', 'x')])
    expect(codes(state).toSorted()).toEqual(['c corrects-itself', 'd corrects-itself', 'f unknown-entry'])
    expect(runOf(state, 'r').stage).toBe('drying')
  })
})

test('the shelf is what stood there at first and what came and went since', () => {
  const withStock = aStudio({ stock: [aStockItem({ count: 5 })] })
  const given = anEntry('delivered', at(1), { orderId: 'order', designId: 'tray', glazeId: null, count: 2 })
  const state = logStateOf(withStock, [given])
  expect(state.shelf).toEqual([{ designId: 'tray', stage: 'finished', glazeId: 'white', count: 3 }])
  expect(state.delivered[0]).toMatchObject({ glazeId: 'white', count: 2 })
})

test('an entry that arrives twice counts once; two under one id are asked about', () => {
  const [entry] = aLog(cut6) as [Entry]
  expect(logStateOf(studio, [entry, structuredClone(entry)])).toEqual(logStateOf(studio, [entry]))
  expect(codes(logStateOf(studio, [entry, { ...entry, happenedMin: at(1) } as Entry]))).toEqual(['e1 made-twice'])
})

test('any order of arrival gives the same state', () => {
  const designs = new Map(logDesigns.map((design) => [design.id, design]))
  fc.assert(
    fc.property(fc.integer(), fc.integer({ min: 1, max: 60 }), (seed, length) => {
      const rng = seededRng(seed)
      const log = aRandomLog(rng, length, 0.08)
      expect(foldLog(shuffled(log, rng), designs)).toEqual(foldLog(log, designs))
    }),
    { numRuns: 60 },
  )
})

test('random logs keep every piece, whatever the order, with corrections that leave no trace', () => {
  expect(soak(200, 7)).toMatchObject({ failures: 0 })
})

test('an orderly log leaves no question, and all of it goes out of the door or is lost', () => {
  const state = foldLog(anOrderlyLog(seededRng(3), 40, 0), new Map(logDesigns.map((design) => [design.id, design])))
  expect(state.questions).toEqual([])
  expect(state.runs.every(({ stage }) => stage === 'gone')).toBe(true)
})

test('ten thousand entries are folded in a fifth of a second', () => {
  const log = anOrderlyLog(seededRng(5), 640, 0.02)
  const designs = new Map(logDesigns.map((design) => [design.id, design]))
  // The best of a few: other work on the machine and the compiler warming up are not the fold's.
  const cpuMs = Array.from({ length: 5 }, () => {
    const before = process.cpuUsage()
    foldLog(log, designs)
    const { user, system } = process.cpuUsage(before)
    return (user + system) / 1_000
  })
  expect(log.length).toBeGreaterThanOrEqual(10_000)
  expect(Math.min(...cpuMs)).toBeLessThan(200)
})
