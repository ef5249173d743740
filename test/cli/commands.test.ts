import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { gzipSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { savePlan } from '#app/plan/savePlan.ts'
import { writeStudioFile } from '#app/studio/writeStudioFile.ts'
import { runCommand } from '#cli/run.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import type { Plan } from '#core/planning/plan.ts'
import { lockFolder } from '#store/folderLock.ts'
import { openStore } from '#store/open.ts'
import { exampleStudioFile } from '../../db/seed/exampleStudio.ts'
import { putEmbedded } from '../support/databaseTemplates.ts'
import { aPlan } from '../support/planBuilders.ts'

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
  test('gives a plan for the wall that is a hundred characters wide at most', async () => {
    const { code, out } = await say('plan', example, ...NOW)
    expect(code).toBe(0)
    expect(out).toContain('THURSDAY 26 NOVEMBER')
    expect(out).toContain('FIRINGS')
    expect(out).toContain('Yard market')
    for (const danger of ['carbon monoxide', 'fumes', 'harms the lungs', 'respirator', 'local codes'])
      expect(out).toContain(danger)
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100)
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
    expect(out).toMatch(
      /^4 Tea trays: \w+ \d+ \w+ (can be promised: \d in 10|is the surest there is, but only at odds of \d in 10)\.$/m,
    )
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

test('what can be said fits a terminal, and names every command', async () => {
  const { out } = await say('help')
  expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100)
  const named = [...out.matchAll(/^  ([a-z]+) /gm)].map(([, name]) => name)
  for (const command of [
    'plan',
    'now',
    'runs',
    'promise',
    'window',
    'log',
    'import',
    'export',
    'backup',
    'restore',
    'example',
    'doctor',
  ])
    expect(named).toContain(command)
})

describe('bad input is one clear sentence and exit 2', () => {
  test.each([
    ['an unknown command', ['frobnicate'], /no command “frobnicate”/],
    ['an unknown option', ['plan', '--loud'], /loud/],
    ['a moment that is none', ['plan', '--now', 'soon'], /“soon” is not a moment/],
    ['a seed that is no number', ['plan', '--seed', 'x'], /--seed must be a whole number/],
    ['a file that is not there', ['plan', 'nowhere.json'], /no file “nowhere.json”/],
    ['a date for nothing', ['promise'], /The design is missing/],
    [
      'a date for a design that there is not',
      ['promise', 'teapot', '1', 'EXAMPLE'],
      /no design “teapot”; there are: Slab mug \(mug\)/,
    ],
    [
      'a date in a glaze that it is not made in',
      ['promise', 'tray', '1', 'EXAMPLE', '--glaze', 'lava'],
      /no glaze for Tea tray “lava”/,
    ],
    ['a thickness of nothing', ['window', '--thickness', '0'], /between 1 and 80 mm/],
    ['a studio that is not there', ['now'], /no studio in .* yet/],
    ['an option of another command', ['plan', '--thickness', '6'], /“plan” knows no --thickness/],
    ['a word too many', ['plan', 'a.json', 'b.json'], /“b.json” is one word too many/],
    ['units that there are not', ['plan', '--units', 'imperial'], /one of: metric, us/],
    ['a studio file that is none, and no folder is made for it', ['import', 'studio', 'package.json'], /studio file/],
    ['a backup that was not said', ['restore'], /There is none in/],
    ['entries that are none', ['log', '-'], /entr/i],
    ['something unknown to come in', ['import', 'clouds', 'file'], /import studio FILE/],
  ])('%s', async (_, words, sentence) => {
    const { code, err, out } = await say(...words.map((word) => (word === 'EXAMPLE' ? example : word)))
    expect(code).toBe(2)
    expect(err).toMatch(sentence)
    expect(out).toBe('')
    expect(existsSync(path.join(folder, 'data'))).toBe(false)
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
    expect(out).toMatch(/Small hotel.*\n.* late/)
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

describe('a studio that is kept', () => {
  beforeAll(() => putEmbedded(path.join(folder, 'kept')))
  const kept = () => ['--folder', path.join(folder, 'kept'), ...NOW]
  const felt = (...words: string[]) => say('log', 'felt', ...words, ...kept())
  const exported = async () => {
    const whole = path.join(folder, 'whole.json')
    expect((await say('export', whole, ...kept())).code).toBe(0)
    return readFileSync(whole, 'utf8')
  }

  test('begins with the example, once', async () => {
    expect((await say('example', ...kept())).code).toBe(0)
    expect((await say('example', ...kept())).code).toBe(2)
  })

  test('names what is under way', async () => {
    expect((await say('runs', ...kept())).out).toMatch(/^  run-trays-2 +8 Tea trays +being made, under/m)
  })

  test('takes what happened to a run, by its name or as the only one of its design', async () => {
    const { out } = await felt('run-trays-2', 'just right', '--step', 'join', '--at', 'this morning')
    expect(out).toMatch(/“felt” of run-trays-2, today 4:00\. Take it back/)
    expect((await felt('windowsill planters', 'too soft')).out).toMatch(/“felt” of run-planters-1/)
    const { entries } = JSON.parse(await exported()) as { entries: { roughMin: number }[] }
    expect(entries).toContainEqual(expect.objectContaining({ kind: 'felt', roughMin: 180 }))
  })

  test.each([
    ['a run that there is not', ['RUN', 'just right'], /no run “RUN” under way; there are: .*run-trays-2/],
    ['one of several runs, without saying which', ['mug', 'just right'], /several runs of “mug”; say which/],
    ['a verdict that is none', ['run-trays-2', 'soggy'], /one of: too soft, just right/],
    ['a maker who is not there', ['run-trays-2', 'dry', '--by', 'Zoe'], /no maker “Zoe”; there are: Ines/],
    ['a step that its design has not', ['run-trays-2', 'dry', '--step', 'sing'], /no step of it “sing”/],
  ])('is told nothing of %s', async (_, words, sentence) => {
    const { code, err } = await felt(...words)
    expect({ code, err }).toEqual({ code: 2, err: expect.stringMatching(sentence) as string })
  })

  test('has the plan on paper that its app shows, and later one made from it', async () => {
    const file = JSON.parse(await exported()) as StudioFile
    const nowMin = Date.parse(NOW[1]!) / 60_000 - 5
    const input = { nowMin, logPosition: file.entries.length, seed: 7, effort: 0, basePlanId: null }
    const shown = aPlan({ id: 'plan-shown', input })
    const store = await openStore({ folder: path.join(folder, 'kept') })
    await savePlan(store.db, file.studio.id, shown)
    await store.close()
    const planAt = async (now: string) => {
      const { out } = await say('plan', '--json', '--folder', path.join(folder, 'kept'), '--now', now)
      return (JSON.parse(out) as { plan: Plan }).plan
    }
    expect(await planAt('2026-11-25T08:00')).toEqual(shown)
    expect((await planAt('2026-11-25T10:00')).input.basePlanId).toBe(shown.id)
  })

  test('comes back from a backup as it was, and what was there meanwhile is kept', async () => {
    const before = await exported()
    const { file } = JSON.parse((await say('backup', '--json', ...kept())).out) as { file: string }
    await felt('run-trays-2', 'dry')
    expect(await exported()).not.toBe(before)
    expect((await say('restore', ...kept())).err).toContain(file)
    expect((await say('restore', file, ...kept())).out).toMatch(/is kept in .*database\.until-/)
    expect(await exported()).toBe(before)
    const damaged = path.join(folder, 'damaged.tar.gz')
    for (const content of ['not a backup', gzipSync('nor is this'), readFileSync(file).subarray(0, 100_000)]) {
      writeFileSync(damaged, content)
      const { code, err } = await say('restore', damaged, ...kept())
      expect({ code, err }).toEqual({ code: 1, err: expect.stringContaining('Nothing was changed') as string })
    }
    expect(await exported()).toBe(before)
  })
})
