import { describe, expect, test } from 'vitest'
import {
  book,
  candidateSlots,
  copyOfDiary,
  earliestSlot,
  freeMinutes,
  isFree,
  latestSlot,
  openDiary,
} from '#core/planning/construct/diary.ts'
import { aMaker } from '../../../support/studioBuilders.ts'

const hours = [
  { startMin: 100, endMin: 200 },
  { startMin: 300, endMin: 400 },
]
const mara = aMaker({ makingHours: hours, lookInHours: hours, kilnWatchHours: hours })
const aDiary = (away: { makerId: string; startMin: number; endMin: number }[] = [], leastSessionMin = 30) =>
  openDiary([mara], away, 0, leastSessionMin)

describe('a diary', () => {
  test('gives the first slot that is long enough', () => {
    expect(earliestSlot(aDiary(), 'making', 'join', 90, 150, 400)).toEqual({
      makerId: 'mara',
      startMin: 300,
      endMin: 390,
    })
  })

  test('gives none that would start too late', () => {
    expect(earliestSlot(aDiary(), 'making', 'join', 90, 150, 299)).toBeNull()
  })

  test('gives the latest slot that ends in time', () => {
    expect(latestSlot(aDiary(), 'making', 'join', 60, 0, 350)).toEqual({
      makerId: 'mara',
      startMin: 120 + 20,
      endMin: 200,
    })
    expect(latestSlot(aDiary(), 'making', 'join', 40, 0, 350)).toEqual({ makerId: 'mara', startMin: 310, endMin: 350 })
  })

  test('loses what is booked, for every kind of presence', () => {
    const diary = aDiary()
    book(diary, { makerId: 'mara', startMin: 120, endMin: 150 })
    expect(isFree(diary, 'making', { makerId: 'mara', startMin: 100, endMin: 120 })).toBe(true)
    expect(isFree(diary, 'making', { makerId: 'mara', startMin: 119, endMin: 121 })).toBe(false)
    expect(isFree(diary, 'kiln watch', { makerId: 'mara', startMin: 149, endMin: 150 })).toBe(false)
    expect(freeMinutes(diary, 'join', 0, 500)).toBe(170)
  })

  test('leaves its copy alone', () => {
    const diary = aDiary()
    book(copyOfDiary(diary), { makerId: 'mara', startMin: 100, endMin: 200 })
    expect(freeMinutes(diary, 'join', 0, 500)).toBe(200)
  })

  test('has no time while its maker is away, and none in scraps too short to begin', () => {
    const diary = aDiary([{ makerId: 'mara', startMin: 100, endMin: 180 }], 30)
    expect(candidateSlots(diary, 'making', 'join', 20, 0, 500, 9).map(({ startMin }) => startMin)).toEqual([
      180, 300, 340, 380,
    ])
    expect(earliestSlot(openDiary([mara], [], 0, 101), 'making', 'join', 20, 0, 500)).toBeNull()
  })

  test('knows who may do what', () => {
    const diary = openDiary([aMaker({ skills: ['slab'], makingHours: hours })], [], 0, 30)
    expect(earliestSlot(diary, 'making', 'glaze', 20, 0, 500)).toBeNull()
    expect(earliestSlot(diary, 'making', null, 20, 0, 500)?.startMin).toBe(100)
  })
})
