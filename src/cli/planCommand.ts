/** `plan [FILE]`: the weeks of making, to be pinned to the wall. */
import { cautionsFor, type Circumstances } from '#core/clay/cautions.ts'
import type { KilnTask, Plan, RunTask } from '#core/planning/plan.ts'
import type { HandWork } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { oddsText } from '#words/amounts.ts'
import { cautionSource, cautionText } from '#words/cautions.ts'
import type { Context } from '#words/context.ts'
import { reasonText } from '#words/reasons.ts'
import { afterText, kilnTaskText, runName, taskText, whoText, windowText } from '#words/tasks.ts'
import { clockText, dateText, dayKey, shortDateText } from '#words/times.ts'
import { type Call, exitCodes, said, wholeOf } from './call.ts'
import { folded } from './lines.ts'
import { contextOf, type Planned, shownOrPlanned, whichText } from './planning.ts'
import { keptOf } from './source.ts'

/** Days that are written out hour by hour, unless `--days` says otherwise; all of them come with `--json`. */
const DAYS_SHOWN = 14

export async function planCommand({ words, options, output }: Call): Promise<number> {
  const kept = await keptOf(words[1], options)
  const { file } = kept
  const made = shownOrPlanned(kept, options)
  if (options.json) output.out(JSON.stringify({ plan: made.plan, breaches: made.breaches }))
  else
    for (const line of planLines(
      made,
      contextOf(file, options),
      wholeOf('--days', said(options, 'days') ?? String(DAYS_SHOWN), 1, 60),
    ))
      output.out(line)
  if (made.breaches.length === 0) return exitCodes.done
  output.err(`This plan breaks what a plan must keep (${made.breaches[0]!.check}): do not work by it, and report it.`)
  return exitCodes.fault
}

/** The plan in lines of at most a hundred characters, if names are not very long. */
export function planLines({ planningCase, plan }: Planned, context: Context, days: number): string[] {
  const { studio } = planningCase
  const untilMin = context.nowMin + days * MIN_PER_DAY
  return [
    `${studio.name}: plan from ${dateText(context.nowMin, context)}, ${clockText(context.nowMin, context)}`,
    ...dayLines(plan, studio, context, untilMin),
    '',
    'FIRINGS',
    ...firingLines(plan, studio, context),
    '',
    'ORDERS: how many in time, when they are ready, and the odds of it',
    ...orderLines(plan, studio, context),
    ...leftOutLines(plan, studio, context),
    ...cautionLines(plan, studio),
  ]
}

type Studio = Planned['planningCase']['studio']

function dayLines(plan: Plan, studio: Studio, context: Context, untilMin: Minute): string[] {
  const hands: (RunTask | KilnTask)[] = [...plan.tasks, ...plan.kilnTasks].filter(({ startMin }) => startMin < untilMin)
  const days = new Map<string, (RunTask | KilnTask)[]>()
  for (const task of hands.toSorted((a, b) => a.startMin - b.startMin || (a.id < b.id ? -1 : 1))) {
    const day = dayKey(task.startMin, context)
    days.set(day, [...(days.get(day) ?? []), task])
  }
  return [...days.values()].flatMap((tasks) => [
    '',
    dateText(tasks[0]!.startMin, context).toUpperCase(),
    ...tasks.flatMap((task) => handLines(task, plan, studio, context)),
  ])
}

function handLines(task: RunTask | KilnTask, plan: Plan, studio: Studio, context: Context): string[] {
  const who = whoText(task, studio, context).padEnd(22)
  if ('firingId' in task) return [`  ${who} ${kilnTaskText(task, plan.firings, studio)}`]
  const details = [task.window ? `window ${windowText(task.window, context)}` : '', afterText(task)].filter(
    (text) => text !== '',
  )
  const what = `${taskText(task, plan, studio)}${whichText(task, plan, context)}`
  return [`  ${who} ${what}`, ...details.flatMap((detail) => folded(detail, 26))]
}

function firingLines(plan: Plan, studio: Studio, context: Context): string[] {
  if (plan.firings.length === 0) return ['  none']
  return plan.firings.map((firing) => {
    const kiln = studio.kilns.find(({ id }) => id === firing.kilnId)?.name ?? firing.kilnId
    const pieces = firing.members.reduce((sum, { count }) => sum + count, 0)
    const when = `${shortDateText(firing.startMin, context)} ${clockText(firing.startMin, context)}`
    const out = `${shortDateText(firing.unloadMin, context)} ${clockText(firing.unloadMin, context)}`
    const full = `${Math.round(firing.fill * 100)} % full, ${Math.round(firing.energyKwh)} kWh`
    return `  ${kiln.padEnd(12)} ${firing.kind.padEnd(6)} lit ${when.padEnd(16)} unload ${out.padEnd(16)} ${String(pieces).padStart(3)} pieces, ${full}`
  })
}

function orderLines(plan: Plan, studio: Studio, context: Context): string[] {
  const promised = plan.promises.filter(({ wanted }) => wanted > 0)
  const orders = studio.orders.toSorted((a, b) => a.packedByMin - b.packedByMin)
  return orders.flatMap(({ id, name, packedByMin }) => {
    const own = promised.filter(({ orderId }) => orderId === id)
    if (own.length === 0) return []
    return [
      `  ${name}, by ${shortDateText(packedByMin - 1, context)}`,
      ...own.map((promise) => promiseLine(promise, studio, context)),
    ]
  })
}

function promiseLine(promise: Plan['promises'][number], { designs }: Studio, context: Context): string {
  const name = designs.find(({ id }) => id === promise.designId)?.name ?? promise.designId
  const ready = promise.readyMin === null ? 'not placed' : `ready ${shortDateText(promise.readyMin, context)}`
  const odds = promise.onTime > 0 ? `, ${oddsText(promise.odds)}` : ''
  const late = promise.late > 0 ? `, ${promise.late} late` : ''
  const safe = promise.lastSafeCutMin === null ? '' : `, cut by ${shortDateText(promise.lastSafeCutMin, context)}`
  return `    ${`${promise.onTime} of ${promise.wanted}`.padEnd(9)} ${name.slice(0, 24).padEnd(24)} ${ready}${odds}${late}${safe}`
}

/** What the work of this plan calls for; followed by whence it comes. */
function cautionLines(plan: Plan, studio: Studio): string[] {
  const works = new Set(plan.tasks.map((task) => workOf(task, plan, studio)))
  const kinds = new Set(plan.firings.map(({ kind }) => kind))
  const circumstances: Circumstances[] = [
    ...(works.has('finish') ? [{ doing: 'sanding' } as const] : []),
    ...(works.has('slab') ? [{ doing: 'dry clay' } as const] : []),
    ...[...kinds].map((firing) => ({ doing: 'firing', firing }) as const),
    ...(kinds.size > 0 ? [{ doing: 'opening' } as const] : []),
  ]
  const codes = new Set(circumstances.flatMap(cautionsFor))
  if (codes.size === 0) return []
  return ['', 'MIND', ...[...codes].flatMap((code) => folded(`${cautionText(code)} (${cautionSource(code)})`, 2))]
}

function workOf({ runId, stepId }: RunTask, { runs }: Plan, { designs }: Studio): HandWork | undefined {
  const designId = runs.find(({ id }) => id === runId)?.designId
  return designs.find(({ id }) => id === designId)?.steps.find(({ id }) => id === stepId)?.needs
}

function leftOutLines(plan: Plan, studio: Studio, context: Context): string[] {
  if (plan.leftOut.length === 0) return []
  const lines = plan.leftOut.flatMap((left) => {
    const name = left.runId
      ? runName(left.runId, plan, studio)
      : (studio.designs.find(({ id }) => id === left.designId)?.name ?? left.designId)
    const order = studio.orders.find(({ id }) => id === left.orderId)?.name
    return [
      `  ${left.count} × ${name}${order ? ` for ${order}` : ''}`,
      ...left.reasons.flatMap((reason) => folded(reasonText(reason, context), 4)),
      ...left.remedies.flatMap((remedy) => folded(`→ ${reasonText(remedy, context)}`, 4)),
    ]
  })
  return ['', 'LEFT OUT', ...lines]
}
