/**
 * Nights of clock changes by the IANA time zone database: `wall` as a person writes it, `utc` as it is meant. A time that the
 * wall skips is read with the offset before the gap, one shown twice is the first (RFC 5545, 3.3.5, form 3, which gives the New
 * York nights of 2007 as its example).
 */
export const clockChanges = [
  { zone: 'America/New_York', wall: '2007-03-11T02:30', utc: '2007-03-11T07:30', night: 'gap, the example of the RFC' },
  {
    zone: 'America/New_York',
    wall: '2007-11-04T01:30',
    utc: '2007-11-04T05:30',
    night: 'twice, the example of the RFC',
  },
  { zone: 'America/New_York', wall: '2007-03-11T01:59', utc: '2007-03-11T06:59', night: 'last before the gap' },
  { zone: 'America/New_York', wall: '2007-03-11T03:00', utc: '2007-03-11T07:00', night: 'first after the gap' },
  { zone: 'America/New_York', wall: '2007-11-04T02:00', utc: '2007-11-04T07:00', night: 'first shown once again' },
  { zone: 'Europe/London', wall: '2026-03-29T01:15', utc: '2026-03-29T01:15', night: 'gap' },
  { zone: 'Europe/London', wall: '2026-10-25T01:15', utc: '2026-10-25T00:15', night: 'twice' },
  { zone: 'Australia/Lord_Howe', wall: '2026-10-04T02:15', utc: '2026-10-03T15:45', night: 'gap of half an hour' },
  { zone: 'Australia/Lord_Howe', wall: '2026-04-05T01:45', utc: '2026-04-04T14:45', night: 'half an hour twice' },
  { zone: 'America/Santiago', wall: '2026-09-06T00:00', utc: '2026-09-06T04:00', night: 'a day without midnight' },
  {
    zone: 'America/Santiago',
    wall: '2026-04-04T23:30',
    utc: '2026-04-05T02:30',
    night: 'the last hour of a day twice',
  },
  { zone: 'Pacific/Apia', wall: '2011-12-30T10:00', utc: '2011-12-30T20:00', night: 'a day that was left out' },
  { zone: 'Asia/Kathmandu', wall: '2026-06-01T00:00', utc: '2026-05-31T18:15', night: 'none, offset of 5:45' },
  { zone: 'UTC', wall: '2026-03-29T01:30', utc: '2026-03-29T01:30', night: 'none' },
] as const
