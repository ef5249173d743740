import type { CostTerm, Kiln, Mode, Problem, Task } from '../../src/core/planning/search/problem.ts'
import type { Job, OvenInstance } from './readOvens.ts'

const reason = { code: 'instance', params: {} }

/**
 * Ovens as kilns: a firing's family is the family of its jobs and how long it takes. That is the longest least time of
 * a job inside, so only least times of the family's jobs come in question.
 */
export function ovenProblem(instance: OvenInstance): Problem {
  const { ovens, jobs, horizon, weights } = instance
  const familiesOf = (oven: number): Family[] => {
    const here = jobs.filter((job) => job.ovens.includes(oven))
    const all = new Map(here.map(({ family, least }) => [idOf(family, least), { family, time: least }]))
    return [...all.values()].toSorted((a, b) => a.family - b.family || a.time - b.time)
  }
  const familiesAt = ovens.map((_, at) => familiesOf(at))
  const kilns = ovens.map((oven, at): Kiln => {
    const families = familiesAt[at]!
    const members = jobs.flatMap((job, index) =>
      job.ovens.includes(at) && job.size <= oven.capacity
        ? [{ taskId: `j${index}`, size: [job.size], familyIds: timesOf(job, families).map(asId) }]
        : [],
    )
    return {
      id: `k${at}`,
      // One firing a job is as many as can be needed.
      slotIds: members.map((_, slot) => `k${at}.${slot}`),
      room: [oven.capacity],
      members,
      hours: oven.shifts.map(({ start, end }) => ({ startMin: start, endMin: end })),
      setups: setupsOf(instance, oven.initialFamily, families),
      initialFamilyId: idOf(oven.initialFamily, 0),
    }
  })
  const slots = kilns.flatMap(({ slotIds }, at) =>
    slotIds.map((id): Task => ({ id, group: id, modes: familiesAt[at]!.map(asMode) })),
  )
  const members = jobs.map((job, index): Task => {
    const families = job.ovens.flatMap((oven) => timesOf(job, familiesAt[oven]!))
    const ids = new Map(families.map((family) => [asId(family), family]))
    return { id: `j${index}`, modes: [...ids.values()].map(asMode) }
  })
  const runtimes = slots.flatMap(({ id, modes }) =>
    modes.map((mode): CostTerm => ({
      kind: 'mode',
      taskId: id,
      modeId: mode.id,
      cost: weights.runtime * mode.durationMin,
    })),
  )
  return {
    horizon: { startMin: 0, endMin: horizon },
    tasks: [...slots, ...members],
    lags: jobs.map(({ release }, index) => ({
      from: 'origin',
      to: { taskId: `j${index}`, at: 'start' },
      minimumMin: release,
      reason,
    })),
    resources: [],
    kilns,
    costs: [
      {
        name: 'running time, late jobs and set-ups',
        terms: [
          ...runtimes,
          ...jobs.map(({ due }, index): CostTerm => ({
            kind: 'late',
            taskId: `j${index}`,
            dueMin: due,
            cost: weights.late,
          })),
          ...kilns.map(({ id }): CostTerm => ({ kind: 'setups', kilnId: id, weight: weights.setupCost })),
        ],
      },
    ],
  }
}

type Family = { readonly family: number; readonly time: number }

const idOf = (family: number, time: number) => `${family}/${time}`
const asId = ({ family, time }: Family) => idOf(family, time)
const asMode = (family: Family): Mode => ({ id: asId(family), durationMin: family.time, demands: [] })

const timesOf = (job: Job, families: readonly Family[]): Family[] =>
  families.filter(({ family, time }) => family === job.family && job.least <= time && time <= job.most)

function setupsOf({ setupTimes, setupCosts }: OvenInstance, initialFamily: number, families: readonly Family[]) {
  const before = [...families, { family: initialFamily, time: 0 }]
  return before.flatMap((from) =>
    families.map((to) => ({
      fromFamilyId: asId(from),
      toFamilyId: asId(to),
      minutes: setupTimes[from.family]![to.family]!,
      cost: setupCosts[from.family]![to.family]!,
    })),
  )
}
