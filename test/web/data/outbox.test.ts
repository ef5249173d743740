import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { EntryRecord } from '#contract/entry.ts'
import type * as Outbox from '../../../src/web/data/outbox.ts'
import type { Tap, TapState } from '../../../src/web/data/outbox.ts'

/** What tabs of one browser share, and how each hears what another wrote. */
type Tab = { readonly outbox: typeof Outbox; readonly hear: (event: object) => void }

let stored: Map<string, string>
let sent: string[][]
let answer: () => Response
let tabs: Tab[]
let writing: Tab | undefined

beforeEach(() => {
  stored = new Map()
  sent = []
  tabs = []
  writing = undefined
  const tell = (key: string, newValue: string | null) => {
    for (const tab of tabs) if (tab !== writing) tab.hear({ key, newValue })
  }
  vi.stubGlobal('localStorage', {
    get length() {
      return stored.size
    },
    key: (at: number) => [...stored.keys()][at] ?? null,
    getItem: (key: string) => stored.get(key) ?? null,
    setItem: (key: string, value: string) => {
      stored.set(key, value)
      tell(key, value)
    },
    removeItem: (key: string) => {
      stored.delete(key)
      tell(key, null)
    },
  })
  vi.stubGlobal('fetch', async (_: unknown, { body }: { readonly body: string }) => {
    const entries = JSON.parse(body) as EntryRecord[]
    const given = answer()
    if (given.ok) sent.push(entries.map(({ id }) => id))
    return given
  })
  answer = taken
})
afterEach(() => vi.unstubAllGlobals())

const taken = () => Response.json({ logPosition: 7, places: [{ id: 'x', position: 7 }] })
const refusedWith = (status: number) => () =>
  Response.json({ type: 'about:blank', title: 'No', status, detail: `No: ${status}` }, { status })
const unreachable = (): never => {
  throw new TypeError('fetch failed')
}

/** A tab of the browser with a memory of its own. */
async function openTab(): Promise<Tab> {
  vi.resetModules()
  let hear: Tab['hear'] = () => undefined
  vi.stubGlobal('addEventListener', (kind: string, listener: Tab['hear']) => {
    if (kind === 'storage') hear = listener
  })
  const outbox = await import('../../../src/web/data/outbox.ts')
  outbox.startOutbox({ invalidateQueries: async () => undefined } as never)
  const tab = { outbox, hear }
  tabs.push(tab)
  return tab
}

async function put(tab: Tab, ...ids: readonly string[]): Promise<void> {
  writing = tab
  tab.outbox.putTap(aTap(...ids))
  await tab.outbox.sendTaps()
  await settled()
  writing = undefined
}
const settled = () => new Promise((resolve) => setTimeout(resolve, 5))

const aTap = (...ids: readonly string[]): Tap => ({
  entries: ids.map((id, deviceSeq) => ({ id, deviceSeq }) as EntryRecord),
  taskId: 'task',
  finishes: true,
  said: ids.join(),
})
const shown = ({ outbox }: Tab) =>
  outbox.taps.get().map(({ entries, status }: TapState) => `${entries[0]!.id} ${status}`)

test('a tap goes to the server at once and is kept no longer', async () => {
  const tab = await openTab()
  await put(tab, 'a', 'b')
  expect(sent).toEqual([['a', 'b']])
  expect(shown(tab)).toEqual(['a kept'])
  expect(stored.size).toBe(0)
})

test('without a network it waits, also over a reload, and goes when it can', async () => {
  answer = unreachable
  const tab = await openTab()
  await put(tab, 'a')
  await put(tab, 'b')
  expect(shown(tab)).toEqual(['a waiting', 'b waiting'])
  tabs = []
  answer = taken
  const reloaded = await openTab()
  await settled()
  expect(sent).toEqual([['a'], ['b']])
  expect(shown(reloaded)).toEqual(['a kept', 'b kept'])
})

test('two tabs without a network: neither loses what the other keeps, and each shows both', async () => {
  answer = unreachable
  const one = await openTab()
  const other = await openTab()
  await put(one, 'a')
  await put(other, 'b')
  expect(shown(one)).toEqual(['a waiting', 'b waiting'])
  expect(shown(other)).toEqual(['a waiting', 'b waiting'])
  tabs = []
  answer = taken
  await openTab()
  await settled()
  expect(sent.flat().toSorted()).toEqual(['a', 'b'])
})

test.each([404, 408, 429, 500, 503])('an answer of %d is not the last word', async (status) => {
  answer = refusedWith(status)
  const tab = await openTab()
  await put(tab, 'a')
  expect(shown(tab)).toEqual(['a waiting'])
  answer = taken
  await tab.outbox.sendTaps()
  expect(shown(tab)).toEqual(['a kept'])
})

test('what is refused is said until it was read, over a reload too, and holds up nothing', async () => {
  answer = refusedWith(422)
  const tab = await openTab()
  await put(tab, 'a')
  answer = taken
  await put(tab, 'b')
  expect(shown(tab)).toEqual(['a refused', 'b kept'])
  tabs = []
  const reloaded = await openTab()
  const [refused] = reloaded.outbox.taps.get()
  expect(refused).toMatchObject({ status: 'refused', why: 'No: 422' })
  reloaded.outbox.forget(refused!)
  expect(shown(reloaded)).toEqual([])
  expect(stored.size).toBe(0)
})

test('what another program left under our name does not keep the page from opening', async () => {
  stored.set('wareboard.tap.x', '{')
  stored.set('wareboard.tap.y', '{"entries":[]}')
  const tab = await openTab()
  expect(shown(tab)).toEqual([])
})

test('a tap that was taken back while it was on its way stays taken back', async () => {
  const tab = await openTab()
  answer = unreachable
  await put(tab, 'a')
  tab.outbox.markTakenBack('a')
  answer = taken
  await tab.outbox.sendTaps()
  expect(tab.outbox.taps.get()).toMatchObject([{ status: 'kept', takenBack: true }])
})
