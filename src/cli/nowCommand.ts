/** `now [FILE]`: what needs hands now and next, in the order in which the clay stops waiting. */
import { benchList } from '#core/planning/benchList.ts'
import { afterText, kilnTaskText, taskText, whoText, windowText } from '#words/tasks.ts'
import { durationText, momentText } from '#words/times.ts'
import { type Call, exitCodes } from './call.ts'
import { folded } from './lines.ts'
import { contextOf, shownOrPlanned, whichText } from './planning.ts'
import { keptOf } from './source.ts'

export async function nowCommand({ words, options, output }: Call): Promise<number> {
  const kept = await keptOf(words[1], options)
  const { file } = kept
  const { planningCase, plan, breaches } = shownOrPlanned(kept, options)
  const list = benchList(plan, planningCase.input.nowMin, planningCase.holdUntilMin)
  if (options.json) {
    output.out(JSON.stringify(list))
    return breaches.length === 0 ? exitCodes.done : exitCodes.fault
  }
  const { studio } = planningCase
  const context = contextOf(file, options)
  output.out(`${studio.name}, ${momentText(context.nowMin, context)}`)
  if (list.hands.length === 0) output.out('Nothing needs hands today or tomorrow.')
  for (const { task, closesMin } of list.hands) {
    const by = closesMin === null ? '' : `  start by ${momentText(closesMin - (task.endMin - task.startMin), context)}`
    const what = `${taskText(task, plan, studio)}${whichText(task, plan, context)}`
    output.out(
      `  ${momentText(task.startMin, context).padEnd(18)} ${what}, ${durationText(task.endMin - task.startMin)}${by}`,
    )
    if (task.window) output.out(`${' '.repeat(21)}window ${windowText(task.window, context)}`)
    if (afterText(task)) output.out(`${' '.repeat(21)}${afterText(task)}`)
  }
  if (list.lookIns.length > 0) output.out('\nTo look in at, cover or open')
  for (const task of list.lookIns)
    for (const line of folded(
      `${taskText(task, plan, studio)}${whichText(task, plan, context)}. ${afterText(task)}`,
      2,
      momentText(task.startMin, context).padEnd(18),
    ))
      output.out(line)
  if (list.kiln.length > 0) output.out('\nAt the kilns')
  for (const task of list.kiln)
    output.out(
      `  ${momentText(task.startMin, context).padEnd(18)} ${kilnTaskText(task, plan.firings, studio)} (${whoText(task, studio, context).split(' ').at(-1)})`,
    )
  if (breaches.length === 0) return exitCodes.done
  output.err(`The plan behind this breaks what a plan must keep (${breaches[0]!.check}): do not work by it.`)
  return exitCodes.fault
}
