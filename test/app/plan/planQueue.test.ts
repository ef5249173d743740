import { describe, expect, test } from 'vitest'
import { createPlanQueue } from '#app/plan/planQueue.ts'

const start = { basePlanId: 'plan-1', nowMin: 100 }

describe('the queue of plans', () => {
  test('gives nothing before somebody asks', () => {
    expect(createPlanQueue(3).next()).toBeUndefined()
  })

  test('asking twice is asking once', () => {
    const queue = createPlanQueue(1)
    queue.ask('a', 0)
    queue.ask('a', 1)
    const job = queue.next()!
    expect(queue.made(job, 2)).toBe(true)
    expect(queue.next()).toBeUndefined()
  })

  test('goes up rung by rung, from the same start', () => {
    const queue = createPlanQueue(3)
    queue.ask('a', 0)
    const first = queue.next()!
    expect(first).toEqual({ studioId: 'a', rung: 0, start: undefined })
    queue.started(first, start)
    queue.made(first, 1)
    const second = queue.next()!
    expect(second).toEqual({ studioId: 'a', rung: 1, start })
    queue.started(second, { basePlanId: 'plan-2', nowMin: 200 })
    queue.made(second, 2)
    expect(queue.next()).toEqual({ studioId: 'a', rung: 2, start })
  })

  test('a first plan comes before another studio’s better one', () => {
    const queue = createPlanQueue(2)
    queue.ask('a', 0)
    queue.made(queue.next()!, 1)
    queue.ask('b', 2)
    expect(queue.next()).toMatchObject({ studioId: 'b', rung: 0 })
  })

  test('studios take turns at better plans', () => {
    const queue = createPlanQueue(3)
    queue.ask('a', 0)
    queue.ask('b', 0)
    const order = [1, 2, 3, 4, 5, 6].map((nowMs) => {
      const job = queue.next()!
      queue.made(job, nowMs)
      return `${job.studioId}${job.rung}`
    })
    expect(order).toEqual(['a0', 'b0', 'a1', 'b1', 'a2', 'b2'])
  })

  test('what was asked while a plan was being made starts a new series', () => {
    const queue = createPlanQueue(3)
    queue.ask('a', 0)
    const first = queue.next()!
    queue.started(first, start)
    queue.ask('a', 1)
    expect(queue.isCurrent(first)).toBe(false)
    expect(queue.made(first, 2)).toBe(false)
    expect(queue.next()).toEqual({ studioId: 'a', rung: 0, start: undefined })
  })

  test('after giving up there is nothing until asked again', () => {
    const queue = createPlanQueue(3)
    queue.ask('a', 0)
    queue.made(queue.next()!, 1)
    queue.giveUp('a')
    expect(queue.next()).toBeUndefined()
    queue.ask('a', 2)
    expect(queue.next()).toMatchObject({ rung: 0 })
  })

  test('waits since the first asking until the last rung, or until a better plan though more was asked', () => {
    const queue = createPlanQueue(2)
    queue.ask('a', 1_000)
    queue.ask('a', 5_000)
    expect(queue.waitedMs('a', 6_000)).toBe(5_000)
    queue.made(queue.next()!, 6_000)
    const better = queue.next()!
    queue.ask('a', 7_000)
    queue.made(better, 8_000)
    expect(queue.waitedMs('a', 9_000)).toBe(1_000)
    queue.made(queue.next()!, 9_000)
    queue.made(queue.next()!, 9_500)
    expect(queue.waitedMs('a', 20_000)).toBe(0)
  })
})
