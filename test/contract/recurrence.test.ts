import fc from 'fast-check'
import { expect, test } from 'vitest'
import { isRecurrence } from '#contract/recurrence.ts'
import { intervalsOf } from '#app/calendar/hours.ts'
import { Refusal } from '#app/refusal.ts'

// The examples of RFC 5545, 3.8.5.3, without those below the day.
test.each([
  'FREQ=DAILY;COUNT=10',
  'FREQ=DAILY;UNTIL=19971224T000000Z',
  'FREQ=DAILY;INTERVAL=2',
  'FREQ=YEARLY;UNTIL=20000131T140000Z;BYMONTH=1;BYDAY=SU,MO,TU,WE,TH,FR,SA',
  'FREQ=WEEKLY;INTERVAL=2;WKST=SU',
  'FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH',
  'FREQ=MONTHLY;COUNT=10;BYDAY=1FR',
  'FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU',
  'FREQ=MONTHLY;BYMONTHDAY=-3',
  'FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200',
  'FREQ=YEARLY;BYDAY=20MO',
  'FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO',
  'FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3',
])('%s is a rule', (text) => {
  expect(isRecurrence(text)).toBe(true)
})

test.each([
  'every Monday',
  '',
  'BYDAY=MO',
  'FREQ=HOURLY;INTERVAL=3',
  'FREQ=DAILY;BYHOUR=9',
  'RRULE:FREQ=DAILY',
  'FREQ=DAILY;FREQ=WEEKLY',
  'FREQ=DAILY;COUNT=3;UNTIL=20260101',
  'FREQ=WEEKLY;BYMONTHDAY=1',
  'FREQ=WEEKLY;BYDAY=1MO',
  'FREQ=MONTHLY;BYYEARDAY=1',
  'FREQ=MONTHLY;BYMONTHDAY=32',
  'FREQ=DAILY;',
])('“%s” is none', (text) => {
  expect(isRecurrence(text)).toBe(false)
})

test('a rule that the file takes is one that the calendar can lay out, and no other', () => {
  const part = fc.constantFrom(
    'FREQ=DAILY',
    'FREQ=WEEKLY',
    'FREQ=MONTHLY',
    'FREQ=YEARLY',
    'INTERVAL=2',
    'COUNT=5',
    'UNTIL=20270101',

    'BYDAY=MO,WE',
    'BYDAY=-1FR',
    'BYMONTHDAY=31',
    'BYMONTH=2',
    'BYYEARDAY=-1',
    'BYWEEKNO=53',
    'BYSETPOS=2',
    'WKST=SU',
    'BYHOUR=9',
    'BYDAY=XX',
    'COUNT=0',
    '',
  )
  fc.assert(
    fc.property(fc.array(part, { minLength: 1, maxLength: 4 }), (parts) => {
      const rrule = parts.join(';')
      const rule = {
        rrule,
        startDate: '2026-03-02',
        startTime: '09:00',
        durationMin: 60,
        exceptDates: [],
        extraDates: [],
      }
      const laidOut = (): boolean => {
        try {
          return Array.isArray(intervalsOf([rule], [], 'Europe/London', 29_540_160, 29_640_960))
        } catch (error) {
          if (error instanceof Refusal) return false
          throw error
        }
      }
      expect(isRecurrence(rrule), rrule).toBe(laidOut())
    }),
    { numRuns: 300, seed: 3 },
  )
})
