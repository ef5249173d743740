/** What is to be done, by whom, when, and how the clay bounds it. */
import type { KilnTask, Plan, PlannedFiring, RunTask, StepWindow } from '#core/planning/plan.ts'
import type { Design } from '#core/studio/studio.ts'
import { countText, oddsText } from './amounts.ts'
import type { Context } from './context.ts'
import { capital, clockText, spanText } from './times.ts'
import { coverDeeds, coverTexts, firmnessTexts } from './trade.ts'

type Named = readonly { readonly id: string; readonly name: string }[]
type Names = {
  readonly designs: readonly Pick<Design, 'id' | 'name' | 'steps'>[]
  readonly glazes: Named
  readonly kilns: Named
  readonly makers: Named
}

/** A run by the name of its design. */
export function runName(runId: string, plan: Pick<Plan, 'runs'>, { designs }: Names): string {
  const run = plan.runs.find(({ id }) => id === runId)
  return designs.find(({ id }) => id === run?.designId)?.name ?? runId
}

/** "Join: 6 tea trays", "Look in at tea tray". */
export function taskText(task: RunTask, plan: Pick<Plan, 'runs'>, names: Names): string {
  const name = runName(task.runId, plan, names)
  if (task.kind === 'look-in') return `Look in at ${name}`
  const run = plan.runs.find(({ id }) => id === task.runId)
  const design = names.designs.find(({ id }) => id === run?.designId)
  const step = design?.steps.find(({ id }) => id === task.stepId)?.name ?? task.stepId
  const glaze = names.glazes.find(({ id }) => id === task.glazeId)?.name
  return `${step}: ${countText(task.count, name)}${glaze ? `, ${glaze}` : ''}`
}

/** What is decided or changed when the task is done; empty if nothing. */
export function afterText({ kind, after, parkWhen }: RunTask): string {
  const otherwise = after ? coverDeeds[after.cover] : kind === 'look-in' ? 'leave it as it is' : ''
  if (parkWhen) {
    const ready = `if every part is ${firmnessTexts[parkWhen.firmness]}, ${coverDeeds[parkWhen.cover]}`
    return capital(otherwise ? `${ready}; if not, ${otherwise}.` : `${ready}.`)
  }
  if (!after) return ''
  return kind === 'look-in' ? `${capital(coverDeeds[after.cover])}.` : `Then it waits ${coverTexts[after.cover]}.`
}

/** "Tuesday, 9:00 to 15:00; Base goes first; 9 in 10". */
export const windowText = ({ openMin, closeMin, odds, bindingPart }: StepWindow, context: Context): string =>
  `${spanText(openMin, closeMin, context)}${bindingPart ? `; ${bindingPart} goes first` : ''}; ${oddsText(odds)}`

/** What hands do at a kiln. */
export const kilnDeeds: Readonly<Record<KilnTask['kind'], string>> = {
  load: 'Load',
  start: 'Switch on',
  'switch-up': 'Turn up',
  'shut-off': 'Be there at shut-off',
  open: 'Open',
  unload: 'Unload',
}

/** "Switch on: Round kiln (glaze)". */
export function kilnTaskText(
  { kind, firingId }: KilnTask,
  firings: readonly PlannedFiring[],
  { kilns }: Names,
): string {
  const firing = firings.find(({ id }) => id === firingId)
  const kiln = kilns.find(({ id }) => id === firing?.kilnId)?.name ?? firing?.kilnId ?? ''
  return `${kilnDeeds[kind]}: ${kiln}${firing ? ` (${firing.kind})` : ''}`
}

/** "9:00-9:40 Mara". */
export const whoText = (
  task: { readonly startMin: number; readonly endMin: number; readonly makerId: string },
  { makers }: Names,
  context: Context,
): string =>
  `${clockText(task.startMin, context)}-${clockText(task.endMin, context)} ${makers.find(({ id }) => id === task.makerId)?.name ?? task.makerId}`
