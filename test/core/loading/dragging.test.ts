/** What a person does to a load by hand: dragging a piece, and asking what would still go in. */
import { describe, expect, test } from 'vitest'
import { checkLoad } from '#core/loading/checkLoad.ts'
import { fits } from '#core/loading/fits.ts'
import { circleFootprint } from '#core/loading/footprint.ts'
import { withPieceMoved, type PieceSpot } from '#core/loading/moved.ts'
import { spotProblems } from '#core/loading/spotProblems.ts'
import type { KilnSpace, Load, LoadItem, LoadKind } from '#core/loading/types.ts'
import { whatStillFits } from '#core/loading/whatStillFits.ts'
import { seededRng } from '#core/rng.ts'
import { aPiece, mixedPieces, pilingPieces, someKilns } from './examples.ts'

const kiln = someKilns.round

function loadOf(space: KilnSpace, items: readonly LoadItem[], kind: LoadKind): Load {
  const answer = fits(space, items, kind, 'quick')
  if (answer.answer !== 'fits') throw new Error(answer.answer)
  return answer.load
}

const spotsOf = ({ levels }: Load): PieceSpot[] =>
  levels.flatMap(({ placements }, level) =>
    placements.map(({ key, xMm, yMm, angleIndex }) => ({ key, level, xMm, yMm, angleIndex })),
  )

describe('one piece dragged', () => {
  const items = mixedPieces(20, seededRng(21))
  const load = loadOf(kiln, items, 'glaze')
  const [spot] = spotsOf(load)
  const codesAt = (more: Partial<PieceSpot>) =>
    spotProblems(kiln, items, 'glaze', load, { ...spot!, ...more }).map(({ code }) => code)

  test('may stay where it is', () => {
    for (const own of spotsOf(load)) expect(spotProblems(kiln, items, 'glaze', load, own)).toEqual([])
  })
  test('may not hang over the edge', () => expect(codesAt({ xMm: 255, yMm: 0 })).toContain('over-shelf-edge'))
  test('may not stand on another', () => {
    const other = spotsOf(load).find(({ key, level }) => level === spot!.level && key !== spot!.key)!
    expect(codesAt({ xMm: other.xMm, yMm: other.yMm })).toContain('pieces-too-close')
  })
  test('may not stand in a post', () => {
    const post = load.levels[1]!.posts[0]!
    expect(codesAt({ level: 0, xMm: post.xMm, yMm: post.yMm })).toContain('post-too-close')
  })
  test('may not go where it is too tall', () => {
    const tallest = items.reduce((a, b) => (b.heightMm > a.heightMm ? b : a))
    const lowest = load.levels.reduce(
      (at, level, i) => (level.usableHeightMm < load.levels[at]!.usableHeightMm ? i : at),
      0,
    )
    const found = spotProblems(kiln, items, 'glaze', load, {
      key: tallest.key,
      level: lowest,
      xMm: 0,
      yMm: 0,
      angleIndex: 0,
    })
    expect(found.map(({ code }) => code)).toContain('too-tall-for-level')
  })
  test('cannot be one that is not in the load', () => {
    expect(() => spotProblems(kiln, items, 'glaze', load, { ...spot!, key: 'stranger' })).toThrow(RangeError)
  })
})

test.each(['glaze', 'bisque'] as const)(
  'a %s piece at a random spot has just the problems that the checker finds',
  (kind) => {
    const rng = seededRng(22)
    const items = kind === 'glaze' ? mixedPieces(25, rng) : pilingPieces(25, rng)
    const load = loadOf(someKilns.halves, items, kind)
    const keys = items.map(({ key }) => key)
    let clean = 0
    for (let i = 0; i < 60; i++) {
      const spot = {
        key: keys[rng.int(keys.length)]!,
        level: rng.int(load.levels.length),
        xMm: 500 * (rng.next() - 0.5),
        yMm: 500 * (rng.next() - 0.5),
        angleIndex: rng.int(1_440),
      }
      const { load: asked } = withPieceMoved(load, spot)
      const problems = spotProblems(someKilns.halves, items, kind, load, spot)
      const sorted = (breaches: readonly unknown[]) => breaches.map((breach) => JSON.stringify(breach)).toSorted()
      // The whole load is legal before, so all that is wrong afterwards concerns what moved. A pair is named either way round.
      const named = (code: string) => code === 'pieces-too-close'
      const whole = checkLoad(someKilns.halves, items, kind, asked)
      expect(sorted(problems.filter(({ code }) => !named(code)))).toEqual(
        sorted(whole.filter(({ code }) => !named(code))),
      )
      expect(problems.filter(({ code }) => named(code))).toHaveLength(whole.filter(({ code }) => named(code)).length)
      if (problems.length === 0) clean++
    }
    expect(clean).toBeLessThan(60)
  },
)

test.each(Object.entries(someKilns))('what still fits in the %s kiln may really be set down there', (_, space) => {
  const items = mixedPieces(14, seededRng(23))
  const load = loadOf(space, items, 'glaze')
  const candidates = mixedPieces(20, seededRng(24)).map((item) => ({ ...item, key: `more-${item.key}` }))
  const { spots, leftOut } = whatStillFits(space, items, 'glaze', load, candidates)
  expect(spots.length).toBeGreaterThan(3)
  expect([...spots, ...leftOut].map(({ key }) => key).toSorted()).toEqual(candidates.map(({ key }) => key).toSorted())
  for (const { key, level, xMm, yMm, angleIndex } of spots) {
    const item = candidates.find((candidate) => candidate.key === key)!
    const placement = { key, xMm, yMm, angleIndex, zMm: load.levels[level]!.zMm, pose: 'upright' as const }
    const levels = load.levels.map((own, i) =>
      i === level ? { ...own, placements: [...own.placements, placement] } : own,
    )
    expect(checkLoad(space, [...items, item], 'glaze', { ...load, levels })).toEqual([])
  }
})

describe('what does not fit says why', () => {
  const items = mixedPieces(14, seededRng(25)).map((item) => ({ ...item, firing: { lowC: 1_200, highC: 1_240 } }))
  const load = loadOf(kiln, items, 'glaze')
  const reasonFor = (item: LoadItem, space: KilnSpace = kiln) =>
    whatStillFits(space, items, 'glaze', load, [item]).leftOut[0]?.reason

  test.each([
    ['taller than the kiln', aPiece('x', circleFootprint(90), 800), 'piece-too-tall'],
    ['wider than the kiln', aPiece('x', circleFootprint(640), 60), 'piece-too-wide'],
    ['as wide as a shelf that is in use', aPiece('x', circleFootprint(500), 40), 'no-room'],
    ['fired lower', aPiece('x', circleFootprint(60), 40, { firing: { lowC: 1_000, highC: 1_060 } }), 'firing-range'],
  ])('%s', (_, item, code) => expect(reasonFor(item)?.code).toBe(code))

  test('too heavy for the kiln', () => {
    const massKg = items.reduce((sum, item) => sum + item.massKg, 0)
    const item = aPiece('x', circleFootprint(60), 40, { massKg: 2 })
    expect(reasonFor(item, { ...kiln, maxWareKg: massKg + 1 })).toEqual({
      code: 'too-heavy',
      params: { massKg: massKg + 2, maxWareKg: massKg + 1 },
    })
  })
})
