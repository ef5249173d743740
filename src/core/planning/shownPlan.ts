import type { Entry } from '#core/logbook/entry.ts'
import { taskId } from './construct/desk.ts'
import type { Plan } from './plan.ts'

/**
 * The plan that was shown, in the names of the logbook: a run to be begun gets its own name from the device that logs its
 * cut, and what was shown of it is to stay.
 * @param entries a cut says by its hint which planned task it answers
 */
export function inLogNames(plan: Plan, entries: readonly Entry[]): Plan {
  const names = namesGiven(plan, entries)
  if (names.size === 0) return plan
  const nameOf = <Name extends string | null>(runId: Name) => (names.get(runId ?? '') ?? runId) as Name
  return {
    ...plan,
    tasks: plan.tasks.map((task) =>
      names.has(task.runId)
        ? { ...task, runId: nameOf(task.runId), id: taskId(nameOf(task.runId), task.stepId, task.glazeId) }
        : task,
    ),
    runs: plan.runs.map((run) => ({ ...run, id: nameOf(run.id) })),
    firings: plan.firings.map((firing) => ({
      ...firing,
      members: firing.members.map((member) => ({ ...member, runId: nameOf(member.runId) })),
    })),
  }
}

/** From the plan's names to the logbook's. A run that was cut in two keeps what was shown for its first half. */
function namesGiven(plan: Plan, entries: readonly Entry[]): Map<string, string> {
  const names = new Map<string, string>()
  const tasks = new Map(plan.tasks.map((task) => [task.id, task]))
  for (const { kind, hint, body } of entries) {
    if (kind !== 'cut' || !hint) continue
    const planned = tasks.get(hint.stepId)?.runId
    if (planned && planned !== body.runId && !names.has(planned)) names.set(planned, body.runId)
  }
  return names
}
