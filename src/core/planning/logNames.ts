import type { Entry } from '#core/logbook/entry.ts'
import type { Design } from '#core/studio/studio.ts'
import { taskId } from './construct/desk.ts'
import type { Plan, PlanningCase } from './plan.ts'

/**
 * The case with one name for each run: a run to be begun gets its own name from the device that logs its cut, and what was
 * shown of it, or pinned, is to stay. A cut says by its hint which planned task it answers.
 */
export function inLogNames(planningCase: PlanningCase): PlanningCase {
  const { studio, entries, basePlan } = planningCase
  const names = namesGiven(studio.designs, entries)
  if (names.size === 0) return planningCase
  const pins = studio.pins.map((pin) => ({ ...pin, runId: names.get(pin.runId) ?? pin.runId }))
  return { ...planningCase, studio: { ...studio, pins }, basePlan: basePlan && renamed(basePlan, names) }
}

/** From the plan's names to the logbook's. A run that was cut in two keeps what was shown for its first half. */
function namesGiven(designs: readonly Design[], entries: readonly Entry[]): ReadonlyMap<string, string> {
  const voided = new Set(entries.flatMap(({ kind, body }) => (kind === 'corrected' ? [body.entryId] : [])))
  const names = new Map<string, string>()
  for (const { id, kind, hint, body } of entries) {
    if (kind !== 'cut' || !hint || voided.has(id)) continue
    const cut = designs.find((design) => design.id === body.designId)?.steps.find((step) => step.kind === 'cut')
    const ending = taskId('', cut?.id ?? '', null)
    if (!cut || !hint.stepId.endsWith(ending)) continue
    const planned = hint.stepId.slice(0, -ending.length)
    if (planned !== body.runId && !names.has(planned)) names.set(planned, body.runId)
  }
  return names
}

function renamed(plan: Plan, names: ReadonlyMap<string, string>): Plan {
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
