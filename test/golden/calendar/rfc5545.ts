/**
 * The examples of RFC 5545 (Internet Calendaring and Scheduling, 2009), section 3.8.5.3, that recur by the day or slower: all at
 * 09:00 America/New_York. `days` are those the RFC prints; where it ends in "...", what follows the last day is not compared.
 */
type Example = {
  readonly says: string
  readonly start: string
  readonly rrule: string
  /** Days by month, YYYY-MM. */
  readonly days: Readonly<Record<string, readonly number[]>>
  readonly goesOn?: true
}

const run = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, index) => from + index)

export const rfcZone = 'America/New_York'
export const rfcTime = '09:00'

export const rfcExamples: readonly Example[] = [
  {
    says: 'daily for 10 occurrences',
    start: '1997-09-02',
    rrule: 'FREQ=DAILY;COUNT=10',
    days: { '1997-09': run(2, 11) },
  },
  {
    says: 'daily until December 24, 1997',
    start: '1997-09-02',
    rrule: 'FREQ=DAILY;UNTIL=19971224T000000Z',
    days: { '1997-09': run(2, 30), '1997-10': run(1, 31), '1997-11': run(1, 30), '1997-12': run(1, 23) },
  },
  {
    says: 'every other day',
    start: '1997-09-02',
    rrule: 'FREQ=DAILY;INTERVAL=2',
    goesOn: true,
    days: {
      '1997-09': [2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30],
      '1997-10': [2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30],
      '1997-11': [1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25, 27, 29],
      '1997-12': [1, 3],
    },
  },
  {
    says: 'every 10 days, 5 occurrences',
    start: '1997-09-02',
    rrule: 'FREQ=DAILY;INTERVAL=10;COUNT=5',
    days: { '1997-09': [2, 12, 22], '1997-10': [2, 12] },
  },
  {
    says: 'every day in January, for 3 years, yearly',
    start: '1998-01-01',
    rrule: 'FREQ=YEARLY;UNTIL=20000131T140000Z;BYMONTH=1;BYDAY=SU,MO,TU,WE,TH,FR,SA',
    days: { '1998-01': run(1, 31), '1999-01': run(1, 31), '2000-01': run(1, 31) },
  },
  {
    says: 'every day in January, for 3 years, daily',
    start: '1998-01-01',
    rrule: 'FREQ=DAILY;UNTIL=20000131T140000Z;BYMONTH=1',
    days: { '1998-01': run(1, 31), '1999-01': run(1, 31), '2000-01': run(1, 31) },
  },
  {
    says: 'weekly for 10 occurrences',
    start: '1997-09-02',
    rrule: 'FREQ=WEEKLY;COUNT=10',
    days: { '1997-09': [2, 9, 16, 23, 30], '1997-10': [7, 14, 21, 28], '1997-11': [4] },
  },
  {
    says: 'weekly until December 24, 1997',
    start: '1997-09-02',
    rrule: 'FREQ=WEEKLY;UNTIL=19971224T000000Z',
    days: {
      '1997-09': [2, 9, 16, 23, 30],
      '1997-10': [7, 14, 21, 28],
      '1997-11': [4, 11, 18, 25],
      '1997-12': [2, 9, 16, 23],
    },
  },
  {
    says: 'every other week',
    start: '1997-09-02',
    rrule: 'FREQ=WEEKLY;INTERVAL=2;WKST=SU',
    goesOn: true,
    days: {
      '1997-09': [2, 16, 30],
      '1997-10': [14, 28],
      '1997-11': [11, 25],
      '1997-12': [9, 23],
      '1998-01': [6, 20],
      '1998-02': [3, 17],
    },
  },
  {
    says: 'weekly on Tuesday and Thursday for 5 weeks, until',
    start: '1997-09-02',
    rrule: 'FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH',
    days: { '1997-09': [2, 4, 9, 11, 16, 18, 23, 25, 30], '1997-10': [2] },
  },
  {
    says: 'weekly on Tuesday and Thursday for 5 weeks, count',
    start: '1997-09-02',
    rrule: 'FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH',
    days: { '1997-09': [2, 4, 9, 11, 16, 18, 23, 25, 30], '1997-10': [2] },
  },
  {
    says: 'every other week on Monday, Wednesday and Friday until December 24, 1997',
    start: '1997-09-01',
    rrule: 'FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR',
    days: {
      '1997-09': [1, 3, 5, 15, 17, 19, 29],
      '1997-10': [1, 3, 13, 15, 17, 27, 29, 31],
      '1997-11': [10, 12, 14, 24, 26, 28],
      '1997-12': [8, 10, 12, 22],
    },
  },
  {
    says: 'every other week on Tuesday and Thursday, 8 occurrences',
    start: '1997-09-02',
    rrule: 'FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH',
    days: { '1997-09': [2, 4, 16, 18, 30], '1997-10': [2, 14, 16] },
  },
  {
    says: 'monthly on the first Friday, 10 occurrences',
    start: '1997-09-05',
    rrule: 'FREQ=MONTHLY;COUNT=10;BYDAY=1FR',
    days: {
      '1997-09': [5],
      '1997-10': [3],
      '1997-11': [7],
      '1997-12': [5],
      '1998-01': [2],
      '1998-02': [6],
      '1998-03': [6],
      '1998-04': [3],
      '1998-05': [1],
      '1998-06': [5],
    },
  },
  {
    says: 'monthly on the first Friday until December 24, 1997',
    start: '1997-09-05',
    rrule: 'FREQ=MONTHLY;UNTIL=19971224T000000Z;BYDAY=1FR',
    days: { '1997-09': [5], '1997-10': [3], '1997-11': [7], '1997-12': [5] },
  },
  {
    says: 'every other month on the first and last Sunday, 10 occurrences',
    start: '1997-09-07',
    rrule: 'FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU',
    days: { '1997-09': [7, 28], '1997-11': [2, 30], '1998-01': [4, 25], '1998-03': [1, 29], '1998-05': [3, 31] },
  },
  {
    says: 'monthly on the second-to-last Monday for 6 months',
    start: '1997-09-22',
    rrule: 'FREQ=MONTHLY;COUNT=6;BYDAY=-2MO',
    days: { '1997-09': [22], '1997-10': [20], '1997-11': [17], '1997-12': [22], '1998-01': [19], '1998-02': [16] },
  },
  {
    says: 'monthly on the third-to-last day',
    start: '1997-09-28',
    rrule: 'FREQ=MONTHLY;BYMONTHDAY=-3',
    goesOn: true,
    days: { '1997-09': [28], '1997-10': [29], '1997-11': [28], '1997-12': [29], '1998-01': [29], '1998-02': [26] },
  },
  {
    says: 'monthly on the 2nd and 15th, 10 occurrences',
    start: '1997-09-02',
    rrule: 'FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15',
    days: { '1997-09': [2, 15], '1997-10': [2, 15], '1997-11': [2, 15], '1997-12': [2, 15], '1998-01': [2, 15] },
  },
  {
    says: 'monthly on the first and last day, 10 occurrences',
    start: '1997-09-30',
    rrule: 'FREQ=MONTHLY;COUNT=10;BYMONTHDAY=1,-1',
    days: {
      '1997-09': [30],
      '1997-10': [1, 31],
      '1997-11': [1, 30],
      '1997-12': [1, 31],
      '1998-01': [1, 31],
      '1998-02': [1],
    },
  },
  {
    says: 'every 18 months on the 10th to 15th, 10 occurrences',
    start: '1997-09-10',
    rrule: 'FREQ=MONTHLY;INTERVAL=18;COUNT=10;BYMONTHDAY=10,11,12,13,14,15',
    days: { '1997-09': run(10, 15), '1999-03': run(10, 13) },
  },
  {
    says: 'every Tuesday, every other month',
    start: '1997-09-02',
    rrule: 'FREQ=MONTHLY;INTERVAL=2;BYDAY=TU',
    goesOn: true,
    days: {
      '1997-09': [2, 9, 16, 23, 30],
      '1997-11': [4, 11, 18, 25],
      '1998-01': [6, 13, 20, 27],
      '1998-03': [3, 10, 17, 24, 31],
    },
  },
  {
    says: 'yearly in June and July, 10 occurrences',
    start: '1997-06-10',
    rrule: 'FREQ=YEARLY;COUNT=10;BYMONTH=6,7',
    days: {
      '1997-06': [10],
      '1997-07': [10],
      '1998-06': [10],
      '1998-07': [10],
      '1999-06': [10],
      '1999-07': [10],
      '2000-06': [10],
      '2000-07': [10],
      '2001-06': [10],
      '2001-07': [10],
    },
  },
  {
    says: 'every other year in January, February and March, 10 occurrences',
    start: '1997-03-10',
    rrule: 'FREQ=YEARLY;INTERVAL=2;COUNT=10;BYMONTH=1,2,3',
    days: {
      '1997-03': [10],
      '1999-01': [10],
      '1999-02': [10],
      '1999-03': [10],
      '2001-01': [10],
      '2001-02': [10],
      '2001-03': [10],
      '2003-01': [10],
      '2003-02': [10],
      '2003-03': [10],
    },
  },
  {
    says: 'every third year on the 1st, 100th and 200th day, 10 occurrences',
    start: '1997-01-01',
    rrule: 'FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200',
    days: {
      '1997-01': [1],
      '1997-04': [10],
      '1997-07': [19],
      '2000-01': [1],
      '2000-04': [9],
      '2000-07': [18],
      '2003-01': [1],
      '2003-04': [10],
      '2003-07': [19],
      '2006-01': [1],
    },
  },
  {
    says: 'every 20th Monday of the year',
    start: '1997-05-19',
    rrule: 'FREQ=YEARLY;BYDAY=20MO',
    goesOn: true,
    days: { '1997-05': [19], '1998-05': [18], '1999-05': [17] },
  },
  {
    says: 'Monday of week number 20',
    start: '1997-05-12',
    rrule: 'FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO',
    goesOn: true,
    days: { '1997-05': [12], '1998-05': [11], '1999-05': [17] },
  },
  {
    says: 'every Thursday in March',
    start: '1997-03-13',
    rrule: 'FREQ=YEARLY;BYMONTH=3;BYDAY=TH',
    goesOn: true,
    days: { '1997-03': [13, 20, 27], '1998-03': [5, 12, 19, 26], '1999-03': [4, 11, 18, 25] },
  },
  {
    says: 'every Thursday in June, July and August',
    start: '1997-06-05',
    rrule: 'FREQ=YEARLY;BYDAY=TH;BYMONTH=6,7,8',
    goesOn: true,
    days: {
      '1997-06': [5, 12, 19, 26],
      '1997-07': [3, 10, 17, 24, 31],
      '1997-08': [7, 14, 21, 28],
      '1998-06': [4, 11, 18, 25],
      '1998-07': [2, 9, 16, 23, 30],
      '1998-08': [6, 13, 20, 27],
    },
  },
  {
    says: 'every Friday the 13th',
    start: '1997-09-02',
    rrule: 'FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13',
    goesOn: true,
    days: { '1998-02': [13], '1998-03': [13], '1998-11': [13], '1999-08': [13], '2000-10': [13] },
  },
  {
    says: 'the first Saturday that follows the first Sunday',
    start: '1997-09-13',
    rrule: 'FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13',
    goesOn: true,
    days: {
      '1997-09': [13],
      '1997-10': [11],
      '1997-11': [8],
      '1997-12': [13],
      '1998-01': [10],
      '1998-02': [7],
      '1998-03': [7],
      '1998-04': [11],
      '1998-05': [9],
      '1998-06': [13],
    },
  },
  {
    says: 'every 4 years, the first Tuesday after a Monday in November',
    start: '1996-11-05',
    rrule: 'FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8',
    goesOn: true,
    days: { '1996-11': [5], '2000-11': [7], '2004-11': [2] },
  },
  {
    says: 'the third of Tuesday, Wednesday or Thursday, for 3 months',
    start: '1997-09-04',
    rrule: 'FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3',
    days: { '1997-09': [4], '1997-10': [7], '1997-11': [6] },
  },
  {
    says: 'the second-to-last weekday of the month',
    start: '1997-09-29',
    rrule: 'FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2',
    goesOn: true,
    days: {
      '1997-09': [29],
      '1997-10': [30],
      '1997-11': [27],
      '1997-12': [30],
      '1998-01': [29],
      '1998-02': [26],
      '1998-03': [30],
    },
  },
  {
    says: 'weeks that start on Monday',
    start: '1997-08-05',
    rrule: 'FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO',
    days: { '1997-08': [5, 10, 19, 24] },
  },
  {
    says: 'weeks that start on Sunday',
    start: '1997-08-05',
    rrule: 'FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU',
    days: { '1997-08': [5, 17, 19, 31] },
  },
  {
    says: 'an invalid date (February 30) is ignored',
    start: '2007-01-15',
    rrule: 'FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5',
    days: { '2007-01': [15, 30], '2007-02': [15], '2007-03': [15, 30] },
  },
]

/** Its examples that go below the day: hours have a start and a length of their own, so these are refused. */
export const rfcBelowTheDay = [
  'FREQ=HOURLY;INTERVAL=3;UNTIL=19970902T170000Z',
  'FREQ=MINUTELY;INTERVAL=15;COUNT=6',
  'FREQ=DAILY;BYHOUR=9,10,11,12,13,14,15,16;BYMINUTE=0,20,40',
] as const
