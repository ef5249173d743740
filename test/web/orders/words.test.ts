import { describe, expect, test } from 'vitest'
import { promiseSaid } from '#words/promises.ts'
import { waitingFor } from '../../../src/web/orders/waiting.ts'
import { handPlan, RUN } from '../../support/handPlan.ts'
import { aStudioFile } from '../../support/recordBuilders.ts'
import { at } from '../../support/studioBuilders.ts'

const studio = aStudioFile()
const context = { zone: 'UTC', locale: 'en-GB', units: 'metric', nowMin: at(0, 8) } as const
const [run] = handPlan.runs.filter(({ id }) => id === RUN)
const allotted = {
  ...run!,
  allotments: [{ orderId: 'order', orderLineId: 'line', count: 2, glazeId: 'white' }],
}
const said = (plan: typeof handPlan) => waitingFor({ id: 'line', designId: 'tray' }, plan, studio, context)

describe('what a line waits for', () => {
  test('is the next step of its runs and the firings they go through', () =>
    expect(said({ ...handPlan, runs: [allotted] })).toEqual([
      expect.stringMatching(
        /^2 .*, to be begun: next .* today 9:00; into the bisque firing .*; into the glaze firing .*\.$/,
      ),
    ]))
  test('is the last of several firings', () => {
    const [bisque] = handPlan.firings
    const later = { ...bisque!, id: 'later', loadMin: bisque!.loadMin + 1_440 }
    const [sentence] = said({ ...handPlan, runs: [allotted], firings: [bisque!, later] })
    expect(sentence).toContain('into 2 bisque firings, the last Tuesday 17 March')
  })
  test('is nothing where no run is meant for it', () =>
    expect(said({ ...handPlan, runs: [{ ...run!, allotments: [] }] })).toEqual([]))
})

describe('a date asked for', () => {
  const promise = {
    ...handPlan.promises[0]!,
    orderId: 'order',
    odds: 0.9,
    lastSafeCutMin: at(3, 9),
    readyMin: at(20, 10),
  }
  test('is said with its odds, when it is packed and cut, and why not sooner', () => {
    const tried = [
      { dueDate: '2026-03-10', odds: 0.46, harmedOrderIds: ['fair'] },
      { dueDate: '2026-03-24', odds: 0.9, harmedOrderIds: [] },
    ]
    expect(
      promiseSaid(
        { dueDate: '2026-03-24', isKept: true, promises: [promise], tried, reasons: [] },
        studio.orders,
        context,
      ),
    ).toEqual({
      answer: 'Tuesday 24 March can be promised: 9 in 10.',
      sentences: [
        'Packed Sunday 22 March.',
        'The last safe cut is Thursday 9:00.',
        'Tuesday 10 March: it would be ready at odds of 4 in 10, and “Spring fair” would have less on time.',
      ],
    })
  })
  test('at poor odds is said, but not called one to promise', () => {
    const promises = [{ ...promise, odds: 0.4 }]
    const { answer } = promiseSaid(
      { dueDate: '2026-03-24', isKept: false, promises, tried: [], reasons: [] },
      studio.orders,
      context,
    )
    expect(answer).toBe('Tuesday 24 March is the surest there is, but only at odds of 4 in 10.')
  })
  test('that is nowhere is said so, with what would help', () => {
    const { answer } = promiseSaid(
      { dueDate: null, isKept: false, promises: [], tried: [], reasons: [] },
      studio.orders,
      context,
    )
    expect(answer).toMatch(/No day .* Ask for fewer/)
  })
})
