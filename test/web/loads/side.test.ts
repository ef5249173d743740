import { expect, test } from 'vitest'
import { checkLoad } from '#core/loading/checkLoad.ts'
import { rectangleFootprint } from '#core/loading/footprint.ts'
import { loadItem } from '#core/planning/facts/pieces.ts'
import { postsThrough, sideOf, spanAt } from '../../../src/web/loads/side.ts'
import { sheetCautions, sheetLevels } from '../../../src/web/loads/loadSheet.ts'
import { sizesIn } from '../../../src/web/loads/ware.ts'
import { weighed } from '../../../src/web/loads/weighed.ts'
import { roomFor } from '../../../src/web/loads/roomLeft.ts'
import { fits } from '#core/loading/fits.ts'
import { handPlan, RUN } from '../../support/handPlan.ts'
import { aStudioFile } from '../../support/recordBuilders.ts'

const COUNT = 6
const studio = aStudioFile()
const kiln = studio.kilns[0]!
const tray = weighed(studio).designs.find(({ id }) => id === 'tray')!
const items = Array.from({ length: COUNT }, (_, i) => loadItem(weighed(studio), tray, 'glaze', RUN, i + 1, true))
const answer = fits(kiln.space, items, 'glaze', 'quick')
if (answer.answer !== 'fits') throw new RangeError('the trays fit into the kiln of the tests')
const { load } = answer
const members = [{ runId: RUN, designId: 'tray', glazeId: 'white', count: COUNT }]
const firing = { ...handPlan.firings[1]!, scheduleId: 'glaze-6', load, members }

test('turned by a quarter, an outline reaches along the length as far as it was wide', () => {
  const outline = rectangleFootprint(300, 200)
  expect(spanAt(outline, 0)).toEqual({ fromMm: -150, toMm: 150 })
  const { fromMm, toMm } = spanAt(outline, 360)
  expect([fromMm, toMm]).toEqual([expect.closeTo(-100, 9), expect.closeTo(100, 9)])
})

test('from the side everything stands on something, inside the kiln', () => {
  expect(checkLoad(kiln.space, items, 'glaze', load)).toEqual([])
  const boxes = sideOf(load, kiln.space, sizesIn(firing, studio))
  const tops = boxes.filter(({ kind }) => kind === 'shelf').map(({ highMm }) => highMm)
  expect(boxes.filter(({ kind }) => kind === 'piece')).toHaveLength(COUNT)
  for (const { kind, lowMm, highMm } of boxes) {
    if (kind === 'piece') expect(tops.some((top) => Math.abs(top - lowMm) < 1e-6)).toBe(true)
    expect(lowMm).toBeGreaterThanOrEqual(0)
    expect(highMm).toBeLessThanOrEqual(kiln.space.chamber.heightMm)
  }
})

test('on a level stand the posts of the level above; on the last there are none', () => {
  const { levels } = load
  expect(levels.length).toBeGreaterThan(1)
  expect(postsThrough(load, levels[0]!)).toHaveLength(levels[1]!.posts.length)
  expect(postsThrough(load, levels.at(-1)!)).toEqual([])
})

test('the sheet goes from the floor up, with the posts under each shelf and every piece once', () => {
  const sheet = sheetLevels(firing, kiln.space, studio, 'metric')
  expect(sheet.map(({ name }) => name)).toEqual(load.levels.map((_, i) => `Shelf ${i + 1}`))
  expect(load.levels.map(({ zMm }) => zMm)).toEqual(load.levels.map(({ zMm }) => zMm).toSorted((a, b) => a - b))
  const counts = sheet.flatMap(({ pieces }) => pieces.map((text) => Number(text.split(' ')[0])))
  expect(counts.reduce((sum, count) => sum + count, 0)).toBe(COUNT)
  for (const { posts } of sheet.slice(1)) expect(posts).toMatch(/^posts: 3 × \d+ mm/)
})

test('whoever loads is told to be there at the shut-off, to shade the eyes, and not to open hot', () =>
  expect(sheetCautions(firing, studio)).toEqual(
    expect.arrayContaining(['be-there-at-shut-off', 'eyes-at-peephole', 'opening-hot']),
  ))

test('in a kiln of two trays there is room for more; of so many that nothing is left, for none', () => {
  expect(roomFor('tray', { ...firing, members: [{ ...members[0]!, count: 2 }] }, kiln, studio)).toBeGreaterThan(0)
  expect(roomFor('tray', { ...firing, members: [{ ...members[0]!, count: 400 }] }, kiln, studio)).toBe(0)
})
