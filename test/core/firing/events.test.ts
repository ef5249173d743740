import { expect, test } from 'vitest'
import { eventsOn } from '#core/firing/events.ts'
import { firingTimes } from '#core/firing/times.ts'
import { aGlazeFiring, aKiln, aLoad, timesOf } from './firings.ts'

const ramp = aGlazeFiring({ segments: [{ rateCPerH: 100, targetC: 1000, holdMin: 30 }] })
const { curve, durationMin } = timesOf(firingTimes(ramp, aKiln(), aLoad()))
const events = eventsOn(curve)
const find = (code: string, direction: string) =>
  events.find((event) => event.code === code && event.direction === direction)

test('on a steady ramp an event starts and ends where its band does', () => {
  // 100 °C/h from 20 °C: 565 °C at 327 min, 580 °C at 336 min.
  expect(find('quartz-inversion', 'heating')).toMatchObject({ startMin: 327, endMin: 336 })
})

test('quartz and cristobalite are met twice, water once', () => {
  expect(find('quartz-inversion', 'cooling')!.startMin).toBeGreaterThan(durationMin)
  expect(find('cristobalite-inversion', 'cooling')!.startMin).toBeGreaterThan(
    find('quartz-inversion', 'cooling')!.endMin,
  )
  expect(find('dehydroxylation', 'cooling')).toBeUndefined()
})

test('a firing that does not go there does not meet it', () => expect(find('vitrification', 'heating')).toBeUndefined())

test('safe opening starts at the lid crack and lasts', () => {
  const span = find('safe-to-open', 'cooling')!
  expect(curve.find(({ atMin }) => atMin === span.startMin)!.tempC).toBe(95)
  expect(span.endMin).toBe(curve.at(-1)!.atMin)
})

test('events come in the order of their start', () => {
  expect(events.map(({ startMin }) => startMin)).toEqual(
    events.map(({ startMin }) => startMin).toSorted((a, b) => a - b),
  )
})

test('steam is over sooner on a mountain', () => {
  const endOfSteam = (altitudeM: number) => eventsOn(curve, altitudeM).find(({ code }) => code === 'steam')!.endMin
  // 10 K lower at 3000 m: 6 min at 100 °C/h.
  expect(endOfSteam(0) - endOfSteam(3000)).toBeCloseTo(6, 0)
})
