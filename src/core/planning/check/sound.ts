/** Whether a plan can be read at all: numbers are numbers, names are names of something. All other checks rely on it. */
import type { Check, Found, Ground } from './ground.ts'

export const wholeNumbers: Check = {
  name: 'times and counts are whole numbers',
  breachesOf: ({ plan }) => [
    ...oddNumbers({ ...plan, firings: plan.firings.map(({ load: _load, ...rest }) => rest) }, 'plan'),
  ],
}

const isWhole = /(Min|[cC]ount|^wanted|^onTime|^late)$/
const isShare = /^(fill|odds|windowOdds)$/

/** Names the first odd number of each place; a load's millimetres are its own checker's. */
function* oddNumbers(value: unknown, at: string): Generator<Found> {
  if (typeof value === 'number') {
    const key = at.slice(at.lastIndexOf('.') + 1)
    const fits =
      Number.isFinite(value) &&
      (!isWhole.test(key) || Number.isSafeInteger(value)) &&
      (!/^(count|boardCount)$/.test(key) || value >= 1) &&
      (!/^(wanted|onTime|late|candleHours|energyKwh)$/.test(key) || value >= 0) &&
      (!isShare.test(key) || (value >= 0 && value <= 1))
    if (!fits) yield { at, value: String(value) }
  } else if (Array.isArray(value)) {
    for (const [index, item] of value.entries())
      yield* oddNumbers(item, typeof item === 'number' ? `${at}` : `${at}[${index}]`)
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, item] of Object.entries(value)) yield* oddNumbers(item, `${at}.${key}`)
  }
}

export const idsOnce: Check = {
  name: 'every id names one thing',
  breachesOf: ({ plan }) => [
    ...repeated([...plan.tasks, ...plan.kilnTasks], 'task'),
    ...repeated(plan.runs, 'run'),
    ...repeated(plan.firings, 'firing'),
    ...repeated(plan.offers, 'offer'),
    ...repeated(
      plan.promises.map(({ orderLineId, orderId }) => ({ id: `${orderId} ${orderLineId}` })),
      'promise',
    ),
  ],
}

function repeated(things: readonly { readonly id: string }[], what: string): Found[] {
  const seen = new Set<string>()
  return things.flatMap(({ id }) => {
    const again = seen.has(id)
    seen.add(id)
    return again ? [{ what, id }] : []
  })
}

export const namesExist: Check = {
  name: 'what is named exists',
  breachesOf: (ground) => {
    const unknown: Found[] = []
    const need = (known: { readonly has: (id: string) => boolean }, id: string | null, what: string, by: string) => {
      if (id !== null && !known.has(id)) unknown.push({ what, id, by })
    }
    namesInWork(ground, need)
    namesInOrders(ground, need)
    return unknown
  },
}

type Need = (known: { readonly has: (id: string) => boolean }, id: string | null, what: string, by: string) => void

const idsOf = (things: readonly { readonly id?: string }[]): ReadonlySet<string> =>
  new Set(things.flatMap(({ id }) => (id === undefined ? [] : [id])))

function namesInWork(ground: Ground, need: Need): void {
  const { plan, studio, designs, makers, kilns, schedules, runs, firings, logRuns } = ground
  const spots = idsOf(studio.spots)
  const glazes = idsOf(studio.glazes)
  // A glaze that the logbook says ware bears may be gone from the studio since; the ware still bears it.
  const needGlaze = (runId: string | null, glazeId: string | null, by: string) => {
    if (logRuns.get(runId ?? '')?.glazeId !== glazeId) need(glazes, glazeId, 'glaze', by)
  }
  for (const task of plan.tasks) {
    need(runs, task.runId, 'run', task.id)
    need(makers, task.makerId, 'maker', task.id)
    needGlaze(task.runId, task.glazeId, task.id)
    need(spots, task.after?.spotId ?? null, 'spot', task.id)
    const steps = idsOf(designs.get(runs.get(task.runId)?.designId ?? '')?.steps ?? [])
    if (task.kind === 'step') need(steps, task.stepId, 'step', task.id)
  }
  for (const task of plan.kilnTasks) {
    need(firings, task.firingId, 'firing', task.id)
    need(makers, task.makerId, 'maker', task.id)
  }
  for (const run of plan.runs) {
    need(designs, run.designId, 'design', run.id)
    // Where ware was said to stand may be gone from the studio since; it still stands there.
    const spotNow = logRuns.get(run.id)?.waits.at(-1)?.spotId
    for (const { spotId } of run.boards) if (spotId !== spotNow) need(spots, spotId, 'spot', run.id)
  }
  for (const firing of plan.firings) {
    need(kilns, firing.kilnId, 'kiln', firing.id)
    if (!firing.underWay) need(schedules, firing.scheduleId, 'schedule', firing.id)
    for (const member of firing.members) {
      need(runs, member.runId ?? '', 'run', firing.id)
      need(designs, member.designId, 'design', firing.id)
      if (!firing.underWay) needGlaze(member.runId, member.glazeId, firing.id)
    }
  }
}

function namesInOrders({ plan, studio, designs }: Ground, need: Need): void {
  const orders = idsOf(studio.orders)
  const lines = new Set(studio.orders.flatMap((order) => order.lines.map(({ id }) => `${order.id} ${id}`)))
  const lineOf = (orderId: string | null, lineId: string | null) => (lineId === null ? null : `${orderId} ${lineId}`)
  for (const run of plan.runs) {
    for (const { orderId, orderLineId } of run.allotments)
      need(lines, lineOf(orderId, orderLineId), 'order line', run.id)
  }
  for (const { orderId, orderLineId, designId } of [...plan.promises, ...plan.leftOut]) {
    need(orders, orderId, 'order', designId)
    need(lines, lineOf(orderId, orderLineId), 'order line', designId)
    need(designs, designId, 'design', designId)
  }
}
