import { nearest, type Neighbourhood } from '../neighbourhood.ts'

/** A maker's day, a rack's week: what one resource does around one minute. */
export const oneResource: Neighbourhood = {
  name: 'one resource',
  tasks: ({ indexed, placed, schedule, endOf }, size, rng) => {
    if (indexed.resources.length === 0) return []
    const resource = rng.int(indexed.resources.length)
    const users = placed.filter((task) =>
      indexed.modes[task]!.some(({ demands }) => demands.some((demand) => demand.resource === resource)),
    )
    if (users.length < 2) return []
    const around = users[rng.int(users.length)]!
    const minute = (schedule.start[around]! + endOf(around)) / 2
    return nearest(users, size, (task) => Math.abs((schedule.start[task]! + endOf(task)) / 2 - minute))
  },
}
