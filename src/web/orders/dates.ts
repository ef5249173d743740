/** Days of the calendar for an order. */
const MS_PER_DAY = 86_400_000

/** Between these a due date lies, as YYYY-MM-DD. */
export type OrderDays = { readonly first: string; readonly last: string }

/** @param days undefined: an order that was there before may be due whenever it was */
export function dueDateFault(dueDate: string, days?: OrderDays): string | undefined {
  if (!isDay(dueDate)) return 'Choose the day on which it is due.'
  if (days && dueDate < days.first) return 'This day has passed. Choose one to come.'
  if (days && dueDate > days.last) return 'This is more than ten years from now. Look at the year again.'
  return undefined
}

/** Year by year the browser's field lets one type days that no calendar has. */
const isDay = (text: string): boolean =>
  /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text)) && dayPlus(text, 0) === text

export const dayPlus = (day: string, count: number): string =>
  new Date(Date.parse(day) + count * MS_PER_DAY).toISOString().slice(0, 10)

/** An order may be due tomorrow or later; ten years on it is a slip of the pen. */
export const orderDays = (today: string): OrderDays => ({ first: dayPlus(today, 1), last: dayPlus(today, 3_652) })
