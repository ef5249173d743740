import type { Indexed } from '../indexed.ts'
import type { Precedence } from '../pairs.ts'
import { LEFT_OUT, type Schedule } from '../schedule.ts'

/**
 * The schedule as a partial order: which task hands its share of a resource on to which. Tasks may then move in time
 * as long as what they got is handed on first. Each takes from those that ended last, so that chains stay short.
 * @see Policella, Cesta, Oddi, Smith (2007), From precedence constraint posting to partial order schedules
 */
export function chainsOf(
  { modes, resources }: Indexed,
  { start, mode }: Schedule,
  isKept: (task: number) => boolean,
): Precedence[] {
  const precedences: Precedence[] = []
  resources.forEach(({ capacity }, resource) => {
    const users = modes.flatMap((ofTask, task) => {
      const taken = mode[task] === LEFT_OUT ? undefined : ofTask[mode[task]!]
      const amount = taken?.demands.find((demand) => demand.resource === resource)?.amount ?? 0
      return taken && amount > 0 && taken.durationMin > 0 && isKept(task)
        ? [{ task, amount, startMin: start[task]!, endMin: start[task]! + taken.durationMin }]
        : []
    })
    users.sort((a, b) => a.startMin - b.startMin || a.task - b.task)
    // Shares in hand, from the one freed first to the one freed last.
    const shares: { by: number; freeMin: number; amount: number }[] = [{ by: -1, freeMin: -Infinity, amount: capacity }]
    for (const { task, amount, startMin, endMin } of users) {
      let wanted = amount
      for (let i = shares.findLastIndex(({ freeMin }) => freeMin <= startMin); i >= 0 && wanted > 0; i--) {
        const share = shares[i]!
        const got = Math.min(wanted, share.amount)
        wanted -= got
        share.amount -= got
        if (share.by >= 0) precedences.push({ before: share.by, after: task })
        if (share.amount === 0) shares.splice(i, 1)
      }
      const at = shares.findLastIndex(({ freeMin }) => freeMin <= endMin) + 1
      shares.splice(at, 0, { by: task, freeMin: endMin, amount })
    }
  })
  return precedences
}
