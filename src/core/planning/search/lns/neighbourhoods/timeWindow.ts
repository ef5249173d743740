import { nearest, type Neighbourhood } from '../neighbourhood.ts'

/** Everything that is under way around one minute. */
export const timeWindow: Neighbourhood = {
  name: 'time window',
  tasks: ({ placed, schedule, durationOf, endOf }, size, rng) => {
    const lasting = placed.filter((task) => durationOf(task) > 0)
    if (lasting.length === 0) return []
    const last = lasting.reduce((latest, task) => Math.max(latest, endOf(task)), 0)
    const first = lasting.reduce((earliest, task) => Math.min(earliest, schedule.start[task]!), last)
    const minute = first + rng.next() * (last - first)
    return nearest(lasting, size, (task) => Math.abs(schedule.start[task]! + durationOf(task) / 2 - minute))
  },
}
