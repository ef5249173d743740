const MS_PER_DAY = 86_400_000

/** The calendar day so many days on. @param day YYYY-MM-DD @param count whole, negatives go back */
export const dayAfter = (day: string, count: number): string =>
  new Date(Date.parse(`${day}T00:00:00.000Z`) + count * MS_PER_DAY).toISOString().slice(0, 10)
