import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { boilingPointC, candlingFor, candlingOf, withCandling } from '#core/firing/candling.ts'
import { bisqueFor, firingDifference, glazeFor } from '#core/firing/sharedSchedule.ts'
import { segmentsMin } from '#core/firing/times.ts'
import { usualSchedules } from '#core/firing/usualSchedules.ts'
import type { FiringSchedule } from '#core/firing/types.ts'

const usual = (id: string): FiringSchedule => usualSchedules.find((schedule) => schedule.id === id)!

// Saturation temperatures at the ICAO standard pressures of these altitudes (steam tables; from memory, rounded to 0.1).
test.each([
  [0, 100.0],
  [500, 98.3],
  [1500, 95.0],
  [3000, 90.0],
])('at %i m water boils at %f °C', (altitudeM, tempC) => {
  expect(Math.abs(boilingPointC(altitudeM) - tempC)).toBeLessThan(0.3)
})

describe('candling', () => {
  test('is never under an hour', () => {
    expect(candlingFor({ thickestMm: 3, oddsDry: 1 }).segment.holdMin).toBe(60)
  })

  test.each([
    [6, 0.99, 'thin-and-dry', 1],
    [14, 0.99, 'thick', 8],
    [6, 0.8, 'doubtful', 8],
    [14, 0.8, 'thick-and-doubtful', 12],
  ])('of %i mm ware, dry at odds %f: %s, %i h', (thickestMm, oddsDry, reason, hours) => {
    const candling = candlingFor({ thickestMm, oddsDry })
    expect(candling.reason).toBe(reason)
    expect(candling.segment.holdMin).toBe(hours * 60)
  })

  test('of 12 mm ware stays within the 0.7-2.1 h that half an inch needs at 85 °C', () => {
    const hours = candlingFor({ thickestMm: 12, oddsDry: 1 }).segment.holdMin / 60
    expect(hours).toBeGreaterThan(1)
    expect(hours).toBeLessThan(2.1)
  })

  test('holds at 80-90 °C, and further down where water boils sooner', () => {
    expect(candlingFor({ thickestMm: 8, oddsDry: 1 }).segment.targetC).toBe(90)
    const high = candlingFor({ thickestMm: 8, oddsDry: 1 }, 3000).segment.targetC
    expect(high).toBeGreaterThanOrEqual(80)
    expect(high).toBeLessThan(boilingPointC(3000) - 7)
  })

  test('is never shortened by thickness or doubt', () => {
    const ware = fc.record({
      thickestMm: fc.double({ min: 1, max: 40, noNaN: true }),
      oddsDry: fc.double({ min: 0, max: 1, noNaN: true }),
    })
    fc.assert(
      fc.property(
        ware,
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (one, thicker, less) => {
          const worse = { thickestMm: one.thickestMm + thicker, oddsDry: one.oddsDry * less }
          expect(candlingFor(worse).segment.holdMin).toBeGreaterThanOrEqual(candlingFor(one).segment.holdMin)
        },
      ),
      { seed: 3 },
    )
  })

  test('goes in front of a schedule, and never shortens what it has', () => {
    const candling = candlingFor({ thickestMm: 6, oddsDry: 1 })
    const slow = withCandling(usual('slow-bisque-06'), candling)
    expect(slow.segments[0]).toEqual({ rateCPerH: 60, targetC: 90, holdMin: 240 })
    expect(slow.segments).toHaveLength(usual('slow-bisque-06').segments.length)
    const plain = withCandling(usual('medium-glaze-6'), candling)
    expect(plain.segments[0]).toEqual(candling.segment)
    expect(plain.segments.slice(1)).toEqual(usual('medium-glaze-6').segments)
  })
})

test.each(usualSchedules.filter(({ kind }) => kind === 'bisque'))('$name candles an hour at least', (schedule) => {
  expect(Math.max(...candlingOf(schedule).map(({ holdMin }) => holdMin))).toBeGreaterThanOrEqual(60)
})

describe('a mixed bisque', () => {
  const member = (id: string, thickestMm = 6, oddsDry = 0.99) => ({ schedule: usual(id), thickestMm, oddsDry })

  test('runs at the slowest its members need', () => {
    const shared = bisqueFor([member('fast-bisque-06'), member('slow-bisque-06'), member('medium-bisque-06')])
    // Every rate of the slow one is the least, but for 650-900 °C (100 against 110 and 180), which is the least too.
    if (shared.kind !== 'shared') return
    expect(segmentsMin(shared.schedule.segments, 20)).toBe(segmentsMin(usual('slow-bisque-06').segments, 20))
  })

  test('takes the slower rate wherever it stands', () => {
    const of = (id: string, rates: [number, number]): FiringSchedule => ({
      id,
      name: id,
      kind: 'bisque',
      cone: '06',
      segments: [
        { rateCPerH: rates[0], targetC: 600, holdMin: 0 },
        { rateCPerH: rates[1], targetC: 1000, holdMin: 5 },
      ],
    })
    const dry = { thickestMm: 6, oddsDry: 1 }
    const shared = bisqueFor([
      { schedule: of('a', [50, 150]), ...dry },
      { schedule: of('b', [100, 80]), ...dry },
    ])
    expect(shared.kind === 'shared' && shared.schedule.segments).toEqual([
      { rateCPerH: 60, targetC: 90, holdMin: 60 },
      { rateCPerH: 50, targetC: 600, holdMin: 0 },
      { rateCPerH: 80, targetC: 1000, holdMin: 5 },
    ])
  })

  test('candles for its thickest and most doubtful member', () => {
    const shared = bisqueFor([member('fast-bisque-06'), member('fast-bisque-06', 14, 0.5)])
    expect(shared).toMatchObject({ kind: 'shared', candling: { reason: 'thick-and-doubtful' } })
    expect(shared.kind === 'shared' && shared.schedule.segments[0]!.holdMin).toBe(720)
  })

  test('is never quicker than any of its members alone, and does not depend on their order', () => {
    const bisques = usualSchedules.filter(({ kind, cone }) => kind === 'bisque' && cone === '06')
    fc.assert(
      fc.property(fc.subarray([...bisques], { minLength: 1 }), (some) => {
        const members = some.map((schedule) => ({ schedule, thickestMm: 6, oddsDry: 1 }))
        const together = bisqueFor(members)
        if (together.kind !== 'shared') throw new Error('one cone can always share')
        const minutes = segmentsMin(together.schedule.segments, 20)
        // A slower last ramp stops lower, by less than ten minutes of it.
        for (const schedule of some) expect(minutes).toBeGreaterThanOrEqual(segmentsMin(schedule.segments, 20) - 10)
        const reversed = bisqueFor(members.toReversed())
        expect(reversed.kind === 'shared' && reversed.schedule.segments).toEqual(together.schedule.segments)
      }),
      { seed: 11, numRuns: 50 },
    )
  })

  test('needs one cone, and somebody in it', () => {
    expect(bisqueFor([member('fast-bisque-06'), member('fast-bisque-04')])).toEqual({
      kind: 'impossible',
      reason: { code: 'cones-differ', params: { a: '06', b: '04' } },
    })
    expect(bisqueFor([])).toMatchObject({ kind: 'impossible', reason: { code: 'no-members' } })
  })
})

describe('a mixed glaze firing', () => {
  const glaze = usual('medium-glaze-6')

  test('may differ in ramps', () => {
    const slowed = { ...glaze, segments: [{ rateCPerH: 50, targetC: 120, holdMin: 0 }, ...glaze.segments.slice(1)] }
    const shared = glazeFor([glaze, slowed])
    expect(shared.kind === 'shared' && shared.schedule.segments).toEqual(slowed.segments)
  })

  test('may not differ in hold, cooling or kind', () => {
    const held = { ...glaze, segments: [...glaze.segments.slice(0, -1), { rateCPerH: 80, targetC: 1214, holdMin: 30 }] }
    const cooled = { ...glaze, coolingSegments: [{ rateCPerH: 70, targetC: 760, holdMin: 0 }] }
    expect(glazeFor([glaze, held])).toMatchObject({ reason: { code: 'holds-differ', params: { a: 15, b: 30 } } })
    expect(glazeFor([glaze, cooled])).toMatchObject({ reason: { code: 'coolings-differ' } })
    expect(firingDifference(glaze, usual('slow-bisque-06'))).toMatchObject({ code: 'kinds-differ' })
    expect(glazeFor([glaze, { ...held, cone: '10' }])).toMatchObject({ reason: { code: 'cones-differ' } })
    expect(glazeFor([])).toMatchObject({ kind: 'impossible', reason: { code: 'no-members' } })
  })

  test('without cones goes by top temperature', () => {
    const byTop = (targetC: number): FiringSchedule => ({
      name: `${targetC}`,
      kind: 'glaze',
      segments: [{ rateCPerH: 100, targetC, holdMin: 10 }],
    })
    expect(firingDifference(byTop(1220), byTop(1224))).toBeUndefined()
    expect(firingDifference(byTop(1220), byTop(1240))).toMatchObject({
      code: 'top-temperatures-differ',
      params: { a: 1220, b: 1240 },
    })
    expect(firingDifference(byTop(1214), glaze)).toMatchObject({ code: 'cones-differ' })
  })
})
