import type { Choice, CostTerm, Kiln, Placed, Plan, Point, Problem, StepFunction } from './problem.ts'
import { origin } from './problem.ts'

/** What a plan breaks, for a person who tests the search; empty for a plan that may be shown. */
export type Breach = { readonly rule: string; readonly detail: string }

/**
 * Verifies a plan against the problem as stated. Shares nothing with the search but the types.
 * Assumptions count as in force, except those named in `dropped`.
 */
export function checkSchedule(problem: Problem, plan: Plan, dropped: ReadonlySet<string> = new Set()): Breach[] {
  const placed = new Map(plan.placed.map((task) => [task.taskId, task]))
  const inForce = (assumptionId: string | undefined) => assumptionId === undefined || !dropped.has(assumptionId)
  return [
    ...accountBreaches(problem, plan, placed),
    ...problem.tasks.flatMap((task) => placementBreaches(problem, task, placed.get(task.id))),
    ...problem.lags.filter(({ assumptionId }) => inForce(assumptionId)).flatMap((lag) => lagBreaches(lag, placed)),
    ...(problem.monotoneArcs ?? [])
      .filter(({ assumptionId }) => inForce(assumptionId))
      .flatMap((arc) => arcBreaches(arc, placed)),
    ...problem.resources
      .filter(({ assumptionId }) => inForce(assumptionId))
      .flatMap((resource) => resourceBreaches(problem, resource, placed)),
    ...(problem.kilns ?? []).flatMap((kiln) => kilnBreaches(problem, kiln, placed)),
    ...seatBreaches(problem.kilns ?? [], placed),
  ]
}

type PlacedById = ReadonlyMap<string, Placed>
const breach = (rule: string, detail: string): Breach => ({ rule, detail })

function accountBreaches({ tasks }: Problem, { placed, leftOutIds }: Plan, byId: PlacedById): Breach[] {
  const left = new Set(leftOutIds)
  const breaches: Breach[] = []
  if (byId.size !== placed.length) breaches.push(breach('once', 'a task is placed twice'))
  const inGroup = new Map<string, boolean>()
  for (const { id, group } of tasks) {
    if (byId.has(id) === left.has(id)) breaches.push(breach('once', `${id} is neither placed nor left out, or both`))
    if (group === undefined) {
      if (left.has(id)) breaches.push(breach('left out', `${id} may not be left out`))
    } else if ((inGroup.get(group) ?? byId.has(id)) !== byId.has(id)) {
      breaches.push(breach('group', `${group} is done in part`))
    } else inGroup.set(group, byId.has(id))
  }
  return breaches
}

function placementBreaches({ horizon }: Problem, task: Problem['tasks'][number], placed: Placed | undefined): Breach[] {
  if (!placed) return []
  const mode = task.modes.find(({ id }) => id === placed.modeId)
  if (!mode) return [breach('mode', `${task.id} has no mode ${placed.modeId}`)]
  const breaches: Breach[] = []
  if (placed.endMin - placed.startMin !== mode.durationMin) breaches.push(breach('duration', task.id))
  if (placed.startMin < horizon.startMin || placed.endMin > horizon.endMin) breaches.push(breach('horizon', task.id))
  if (mode.starts && !mode.starts.some((span) => span.startMin <= placed.startMin && placed.startMin < span.endMin)) {
    breaches.push(breach('calendar', `${task.id} may not start at ${placed.startMin}`))
  }
  return breaches
}

const timeOf = (point: Point, placed: PlacedById): number | undefined => {
  const task = placed.get(point.taskId)
  return point.at === 'start' ? task?.startMin : task?.endMin
}

const taken = (when: readonly Choice[] | undefined, placed: PlacedById): boolean =>
  (when ?? []).every(({ taskId, modeId }) => placed.get(taskId)?.modeId === modeId)

function lagBreaches(
  { from, to, minimumMin, maximumMin, when }: Problem['lags'][number],
  placed: PlacedById,
): Breach[] {
  const fromMin = from === origin ? 0 : timeOf(from, placed)
  const toMin = timeOf(to, placed)
  if (fromMin === undefined || toMin === undefined || !taken(when, placed)) return []
  const lagMin = toMin - fromMin
  const name = `${from === origin ? origin : from.taskId} to ${to.taskId}: ${lagMin}`
  if (minimumMin !== undefined && lagMin < minimumMin) return [breach('minimum lag', `${name} < ${minimumMin}`)]
  if (maximumMin !== undefined && lagMin > maximumMin) return [breach('maximum lag', `${name} > ${maximumMin}`)]
  return []
}

function arcBreaches(
  { from, to, bound, steps, when }: NonNullable<Problem['monotoneArcs']>[number],
  placed: PlacedById,
): Breach[] {
  const fromMin = timeOf(from, placed)
  const toMin = timeOf(to, placed)
  if (fromMin === undefined || toMin === undefined || !taken(when, placed)) return []
  const limit = curveAt(steps, fromMin)
  if (bound === 'at-least' ? toMin >= limit : toMin <= limit) return []
  return [breach('window', `${from.taskId} at ${fromMin} to ${to.taskId} at ${toMin}: ${bound} ${limit}`)]
}

function curveAt(steps: StepFunction, minute: number): number {
  const step = steps.findLast(({ fromMin }) => fromMin <= minute)
  return step ? step.valueMin + step.slope * (minute - step.fromMin) : -Infinity
}

/** Use can only pass what there is where a task begins or a piece of the profile begins. */
function resourceBreaches({ tasks }: Problem, resource: Problem['resources'][number], placed: PlacedById): Breach[] {
  const uses = tasks.flatMap((task) => {
    const place = placed.get(task.id)
    const demand = task.modes
      .find(({ id }) => id === place?.modeId)
      ?.demands.filter(({ resourceId }) => resourceId === resource.id)
    const amount = (demand ?? []).reduce((sum, one) => sum + one.amount, 0)
    return place && amount > 0 && place.endMin > place.startMin ? [{ ...place, amount }] : []
  })
  const capacityAt = (minute: number) =>
    resource.profile?.find(({ startMin, endMin }) => startMin <= minute && minute < endMin)?.capacity ??
    resource.capacity
  const turns = [
    ...uses.map(({ startMin }) => startMin),
    ...(resource.profile ?? []).flatMap(({ startMin, endMin }) => [startMin, endMin]),
  ]
  return [...new Set(turns)].flatMap((minute) => {
    const used = uses.reduce((sum, use) => (use.startMin <= minute && minute < use.endMin ? sum + use.amount : sum), 0)
    return used > capacityAt(minute) ? [breach('resource', `${resource.id}: ${used} at ${minute}`)] : []
  })
}

function kilnBreaches({ tasks }: Problem, kiln: Kiln, placed: PlacedById): Breach[] {
  const breaches: Breach[] = []
  const firings = kiln.slotIds.map((id) => placed.get(id))
  firings.forEach((firing, at) => {
    const before = firings[at - 1]
    if (firing && at > 0 && !before) breaches.push(breach('slots', `${kiln.slotIds[at]} is used before an earlier one`))
    if (!firing) return
    const fromFamily = before ? before.modeId : kiln.initialFamilyId
    const setup = kiln.setups?.find((one) => one.fromFamilyId === fromFamily && one.toFamilyId === firing.modeId)
    if (before && firing.startMin < before.endMin + (setup?.minutes ?? 0))
      breaches.push(breach('slots', `${firing.taskId} is too early`))
    const beginMin = firing.startMin - (setup?.minutes ?? 0)
    if (kiln.hours && !kiln.hours.some(({ startMin, endMin }) => startMin <= beginMin && firing.endMin <= endMin))
      breaches.push(breach('hours', `${firing.taskId} from ${beginMin} to ${firing.endMin}`))
    const inside = kiln.members.filter(({ taskId }) => placed.get(taskId)?.slotId === firing.taskId)
    for (const { taskId, familyIds } of inside) {
      if (!familyIds.includes(firing.modeId)) breaches.push(breach('family', `${taskId} in ${firing.taskId}`))
      if (placed.get(taskId)!.startMin !== firing.startMin)
        breaches.push(breach('firing', `${taskId} does not start with it`))
      const { modes } = tasks.find(({ id }) => id === taskId)!
      if (modes.length > 1 && placed.get(taskId)!.modeId !== firing.modeId)
        breaches.push(breach('family', `${taskId} is not done as ${firing.taskId} is`))
    }
    kiln.room.forEach((room, dimension) => {
      const used = inside.reduce((sum, { size }) => sum + (size[dimension] ?? 0), 0)
      if (used > room) breaches.push(breach('room', `${firing.taskId}: ${used} of ${room}`))
    })
  })
  for (const { taskId } of kiln.members) {
    const slotId = placed.get(taskId)?.slotId
    if (placed.has(taskId) && slotId !== undefined && kiln.slotIds.includes(slotId) && !placed.has(slotId)) {
      breaches.push(breach('firing', `${taskId} goes into a firing that does not happen`))
    }
  }
  return breaches
}

/** Whoever is a member of kilns and is done goes into a slot of one that lists it. */
function seatBreaches(kilns: readonly Kiln[], placed: PlacedById): Breach[] {
  const members = new Set(kilns.flatMap(({ members: ofKiln }) => ofKiln.map(({ taskId }) => taskId)))
  return [...members].flatMap((id) => {
    const place = placed.get(id)
    const takes = (kiln: Kiln) =>
      kiln.members.some(({ taskId }) => taskId === id) && kiln.slotIds.includes(place!.slotId ?? '')
    return !place || kilns.some(takes) ? [] : [breach('firing', `${id} goes into no firing`)]
  })
}

/** What the plan costs, by level, from the problem's words alone. */
export function costsOf(problem: Problem, plan: Plan): number[] {
  const placed = new Map(plan.placed.map((task) => [task.taskId, task]))
  return problem.costs.map(({ terms }) => terms.reduce((sum, term) => sum + costOf(problem, placed, term), 0))
}

function costOf(problem: Problem, placed: PlacedById, term: CostTerm): number {
  switch (term.kind) {
    case 'makespan':
      return term.weight * Math.max(0, ...[...placed.values()].map(({ endMin }) => endMin - problem.horizon.startMin))
    case 'tardiness':
      return term.weight * Math.max(0, (placed.get(term.taskId)?.endMin ?? -Infinity) - term.dueMin)
    case 'late':
      return (placed.get(term.taskId)?.endMin ?? -Infinity) > term.dueMin ? term.cost : 0
    case 'left-out':
      return problem.tasks.some(({ id, group }) => group === term.group && placed.has(id)) ? 0 : term.cost
    case 'mode':
      return placed.get(term.taskId)?.modeId === term.modeId ? term.cost : 0
    case 'moved': {
      const startMin = placed.get(term.taskId)?.startMin
      return startMin === undefined ? 0 : term.weight * Math.abs(startMin - term.startMin)
    }
    case 'span': {
      const fromMin = timeOf(term.from, placed)
      const toMin = timeOf(term.to, placed)
      if (fromMin === undefined || toMin === undefined) return 0
      return term.weight * Math.max(0, toMin - fromMin - term.beyondMin)
    }
    case 'setups': {
      const kiln = problem.kilns?.find(({ id }) => id === term.kilnId)
      const families = (kiln?.slotIds ?? []).flatMap((id) => placed.get(id)?.modeId ?? [])
      const costs = families.map((family, at) => {
        const from = at === 0 ? kiln!.initialFamilyId : families[at - 1]
        return (
          kiln!.setups?.find(({ fromFamilyId, toFamilyId }) => fromFamilyId === from && toFamilyId === family)?.cost ??
          0
        )
      })
      return term.weight * costs.reduce((sum, cost) => sum + cost, 0)
    }
  }
}
