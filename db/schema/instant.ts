import { customType } from 'drizzle-orm/pg-core'

/** A moment in UTC to the millisecond, read and written in the one spelling of the wire: 2026-03-02T09:30:00.000Z. */
export const instant = customType<{ data: string; driverData: string }>({
  dataType: () => 'timestamp (3) with time zone',
  // The database says 2026-03-02 09:30:00+00. Made ISO before it is read: other spellings are read with a guess at the century.
  fromDriver: (text) => new Date(text.replace(' ', 'T').replace(/[+-]\d\d$/, '$&:00')).toISOString(),
})
