import type { Plan } from '../../src/core/planning/search/problem.ts'
import type { OvenInstance } from './readOvens.ts'

/** A batch as the instance speaks of it; jobs, ovens and families from 0. */
type Batch = { readonly oven: number; readonly start: number; readonly end: number; readonly jobs: readonly number[] }

/**
 * The objective of a plan of `ovenProblem`, computed from the instance alone: from the plan it takes only which job
 * goes into which firing, and when that begins and ends.
 * @throws Error naming the first rule of the instance that is broken
 */
export function ovenObjective(instance: OvenInstance, plan: Plan): number {
  const { ovens, jobs, setupTimes, setupCosts, weights } = instance
  let [runtime, late, setupCost] = [0, 0, 0]
  const batches = batchesOf(plan)
  const seats = batches.flatMap((batch) => batch.jobs)
  rule(seats.length === jobs.length && new Set(seats).size === jobs.length, 'every job once')
  ovens.forEach(({ capacity, initialFamily, shifts }, oven) => {
    let before = { family: initialFamily, end: -Infinity }
    for (const batch of batches.filter((one) => one.oven === oven).toSorted((a, b) => a.start - b.start)) {
      const inside = batch.jobs.map((job) => jobs[job]!)
      const time = batch.end - batch.start
      const { family } = inside[0]!
      const setupMin = setupTimes[before.family]![family]!
      const name = `oven ${oven} at ${batch.start}`
      rule(
        inside.every((job) => job.family === family),
        `${name}: one family`,
      )
      rule(
        inside.every((job) => job.ovens.includes(oven)),
        `${name}: eligible`,
      )
      rule(
        inside.every((job) => job.least <= time && time <= job.most),
        `${name}: processing time`,
      )
      rule(
        inside.every((job) => job.release <= batch.start),
        `${name}: released`,
      )
      rule(inside.reduce((sum, job) => sum + job.size, 0) <= capacity, `${name}: capacity`)
      rule(batch.start - setupMin >= before.end, `${name}: set-up after the batch before`)
      rule(
        shifts.some(({ start, end }) => start <= batch.start - setupMin && batch.end <= end),
        `${name}: set-up and batch inside one shift`,
      )
      runtime += time
      late += inside.filter((job) => batch.end > job.due).length
      setupCost += setupCosts[before.family]![family]!
      before = { family, end: batch.end }
    }
  })
  return weights.runtime * runtime + weights.late * late + weights.setupCost * setupCost
}

function batchesOf({ placed }: Plan): Batch[] {
  const members = placed.flatMap(({ taskId, slotId }) => (slotId === undefined ? [] : [{ taskId, slotId }]))
  return placed.flatMap(({ taskId, startMin, endMin }) => {
    const inside = members.filter(({ slotId }) => slotId === taskId).map((member) => Number(member.taskId.slice(1)))
    const oven = Number(/^k(\d+)\./.exec(taskId)?.[1])
    return inside.length === 0 ? [] : [{ oven, start: startMin, end: endMin, jobs: inside }]
  })
}

function rule(isKept: boolean, name: string): void {
  if (!isKept) throw new Error(`broken: ${name}`)
}
