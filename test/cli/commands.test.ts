import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { writeStudioFile } from '#app/studio/writeStudioFile.ts'
import { runCommand } from '#cli/run.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { lockFolder } from '#store/folderLock.ts'
import { exampleStudioFile } from '../../db/seed/exampleStudio.ts'

const NOW = ['--now', '2026-11-25T08:00:00Z']
let folder: string
let example: string
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'wareboard-cli-'))
  example = path.join(folder, 'example.json')
  writeFileSync(example, writeStudioFile(exampleStudioFile('2026-11-25')))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

async function say(...words: string[]) {
  const out: string[] = []
  const err: string[] = []
  const code = await runCommand(
    words,
    { out: (line) => out.push(line), err: (line) => err.push(line) },
    {
      env: { WAREBOARD_FOLDER: path.join(folder, 'data') },
      clockMs: 0,
      input: () => Promise.resolve('[{"kind":"cut"}]'),
      exampleAt: () => exampleStudioFile('2026-11-25'),
    },
  )
  return { code, out: out.join('\n'), err: err.join('\n') }
}

/** The example with something spoilt, as a file. */
function spoilt(name: string, spoil: (file: StudioFile) => object): string {
  const place = path.join(folder, `${name.replaceAll(/\W/g, '-')}.json`)
  writeFileSync(place, JSON.stringify(spoil(exampleStudioFile('2026-11-25'))))
  return place
}

const withDesign = (file: StudioFile, id: string, change: object): object => ({
  ...file,
  designs: file.designs.map((design) => (design.id === id ? { ...design, ...change } : design)),
})
const withThickness = (file: StudioFile, thicknessMm: number): object =>
  withDesign(file, 'tray', {
    parts: file.designs.find(({ id }) => id === 'tray')!.parts.map((part) => ({ ...part, thicknessMm })),
  })
const pin = (id: string, startsAt: string) => ({ id, runId: 'new:tray:1', stepId: 'cut', startsAt, makerId: null })

type Spoiling = readonly [what: string, spoil: (file: StudioFile) => object, sentence: RegExp]

const refused: readonly Spoiling[] = [
  ['a negative thickness', (file) => withThickness(file, -3), /thicknessMm/],
  ['a zone that does not exist', (file) => ({ ...file, studio: { ...file.studio, zone: 'Mars/Olympus' } }), /zone/i],
  ['a wrong unit (metres for millimetres)', (file) => withThickness(file, 0.006), /between .* mm/],
  ['an unknown clay', (file) => withDesign(file, 'tray', { clayId: 'moon-dust' }), /moon-dust/],
  [
    'two pins on one step',
    (file) => ({ ...file, pins: [pin('a', '2026-11-26T10:00:00.000Z'), pin('b', '2026-11-26T11:00:00.000Z')] }),
    /pin/i,
  ],
]

const leftOut: readonly Spoiling[] = [
  [
    'a maker without hours',
    (file) => ({ ...file, hours: file.hours.filter(({ purpose }) => purpose !== 'making') }),
    /no free hours/,
  ],
  [
    'a design larger than every kiln',
    (file) => withDesign(file, 'vase', { heightMm: 900 }),
    /does not go into any kiln/,
  ],
]

describe('a file of the example', () => {
  test('gives a plan for the wall that is a hundred and some characters wide at most', async () => {
    const { code, out } = await say('plan', example, ...NOW)
    expect(code).toBe(0)
    expect(out).toContain('THURSDAY 26 NOVEMBER')
    expect(out).toContain('FIRINGS')
    expect(out).toContain('Yard market')
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(130)
  })

  test('gives the same plan to machines, with nothing broken in it', async () => {
    const { code, out } = await say('plan', example, '--json', ...NOW)
    const { plan, breaches } = JSON.parse(out) as { plan: { tasks: unknown[] }; breaches: unknown[] }
    expect({ code, breaches }).toEqual({ code: 0, breaches: [] })
    expect(plan.tasks.length).toBeGreaterThan(50)
  })

  test('tells what needs hands now', async () => {
    const { code, out } = await say('now', example, ...NOW)
    expect(code).toBe(0)
    expect(out).toContain('To look in at, cover or open')
  })

  test('gives a date with its odds', async () => {
    const { code, out } = await say('promise', 'tray', '4', example, ...NOW)
    expect(code).toBe(0)
    expect(out).toMatch(/^4 Tea trays: \w+ \d+ \w+ can be promised: \d in 10\.$/m)
    expect(out).toMatch(/^  Packed /m)
  })

  test('tells how long a slab has under each cover', async () => {
    const { code, out } = await say('window', example, '--thickness', '6', '--json', ...NOW)
    const windows = JSON.parse(out) as { cover: string; middleH: { from: number } | null }[]
    expect(code).toBe(0)
    const hours = (cover: string) => windows.find((window) => window.cover === cover)!.middleH!.from
    expect(hours('open')).toBeGreaterThan(5)
    expect(hours('cloth')).toBeGreaterThan(hours('open'))
    expect(hours('loose')).toBeGreaterThan(hours('cloth'))
  })

  test('is looked over', async () => {
    const { code, out } = await say('doctor', example, ...NOW)
    expect(code).toBe(0)
    expect(out).toContain('well  The plan keeps what a plan must keep')
  })
})

describe('bad input is one clear sentence and exit 2', () => {
  test.each([
    ['an unknown command', ['frobnicate'], /no command “frobnicate”/],
    ['an unknown option', ['plan', '--loud'], /loud/],
    ['a moment that is none', ['plan', '--now', 'soon'], /“soon” is not a moment/],
    ['a seed that is no number', ['plan', '--seed', 'x'], /--seed must be a whole number/],
    ['a file that is not there', ['plan', 'nowhere.json'], /no file “nowhere.json”/],
    ['a date for nothing', ['promise'], /The design is missing/],
    ['a thickness of nothing', ['window', '--thickness', '0'], /between 1 and 80 mm/],
    ['a verdict that is none', ['log', 'felt', 'run', 'soggy'], /one of: too soft, just right/],
    ['entries that are none', ['log', '-'], /entr/i],
    ['something unknown to come in', ['import', 'clouds', 'file'], /import studio FILE/],
  ])('%s', async (_, words, sentence) => {
    const { code, err, out } = await say(...words)
    expect(code).toBe(2)
    expect(err).toMatch(sentence)
    expect(out).toBe('')
  })

  test.each(refused)('a file with %s', async (name, spoil, sentence) => {
    const { code, err } = await say('plan', spoilt(name, spoil), ...NOW)
    expect(code).toBe(2)
    expect(err).toMatch(sentence)
  })

  test('a file that was cut off, with the place', async () => {
    const place = path.join(folder, 'cut-off.json')
    writeFileSync(place, readFileSync(example, 'utf8').slice(0, 4_000))
    const { code, err } = await say('plan', place)
    expect(code).toBe(2)
    expect(err).toMatch(/line \d+, column \d+/)
  })
})

describe('what cannot be kept is said, and is no error', () => {
  test.each(leftOut)('%s', async (name, spoil, sentence) => {
    const { code, out } = await say('plan', spoilt(name, spoil), ...NOW)
    expect(code).toBe(0)
    expect(out).toMatch(/LEFT OUT/)
    expect(out).toMatch(sentence)
  })

  test('a due date in the past', async () => {
    const late = (file: StudioFile) => ({
      ...file,
      orders: file.orders.map((order) => (order.id === 'hotel' ? { ...order, dueDate: '2026-11-01' } : order)),
    })
    const place = spoilt('past', late)
    const { code, out } = await say('plan', place, ...NOW)
    expect(code).toBe(0)
    expect(out).toMatch(/Small hotel.* late/)
  })
})

test('a folder that is in use is exit 3, and the sentence says by whom', async () => {
  const held = path.join(folder, 'held')
  const lock = lockFolder(held)
  const { code, err } = await say('plan', '--folder', held)
  lock.release()
  expect(code).toBe(3)
  expect(err).toContain(String(process.pid))
})

test('the example goes in, a step is logged, and the studio comes out again', async () => {
  const kept = ['--folder', path.join(folder, 'kept')]
  expect((await say('example', ...kept, ...NOW)).code).toBe(0)
  expect((await say('example', ...kept, ...NOW)).code).toBe(2)
  expect(
    (await say('log', 'felt', 'run-trays-2', 'just right', '--step', 'join', '--at', 'this morning', ...kept, ...NOW))
      .code,
  ).toBe(0)
  const whole = path.join(folder, 'whole.json')
  expect((await say('export', whole, ...kept, ...NOW)).code).toBe(0)
  const { entries } = JSON.parse(readFileSync(whole, 'utf8')) as { entries: { kind: string; roughMin: number }[] }
  expect(entries.filter(({ kind }) => kind === 'felt').at(-1)).toBeDefined()
  expect(entries).toContainEqual(expect.objectContaining({ kind: 'felt', roughMin: 180 }))
  expect(readdirSync(path.join(folder, 'kept')).length).toBeGreaterThan(0)
})
