/** A window as one says it across the bench: "9:00 to 15:00; edges go first; feel at 8:00". */
import type { StepWindow } from '#core/planning/plan.ts'
import type { Context } from '#words/context.ts'
import { clockText, dayKey, dayText } from '#words/times.ts'

/** How long before it opens the clay is felt first. */
const feelBeforeMin = 60

type Named = { readonly parts: readonly { readonly id: string; readonly name: string }[] }

export function windowWords(
  { openMin, closeMin, bindingPart }: StepWindow,
  { parts }: Named,
  context: Context,
): string {
  const part = parts.find(({ id, name }) => id === bindingPart || name === bindingPart)?.name ?? bindingPart
  // With a single part there is nothing that it goes before.
  const first = parts.length > 1 && part ? `; ${part.toLowerCase()} goes first` : ''
  const feelMin = openMin - feelBeforeMin
  const feel = feelMin > context.nowMin ? `; feel at ${momentBeside(feelMin, openMin, context)}` : ''
  return `${spanWords(openMin, closeMin, context)}${first}${feel}`
}

function spanWords(openMin: number, closeMin: number, context: Context): string {
  const { nowMin } = context
  const close = `${dayKey(closeMin, context) === dayKey(Math.max(openMin, nowMin), context) ? '' : `${dayText(closeMin, context)} `}${clockText(closeMin, context)}`
  if (openMin <= nowMin)
    return closeMin < nowMin
      ? `closed ${dayText(closeMin, context)} ${clockText(closeMin, context)}`
      : `open now, to ${close}`
  const day = dayKey(openMin, context) === dayKey(nowMin, context) ? '' : `${dayText(openMin, context)} `
  return `${day}${clockText(openMin, context)} to ${close}`
}

const momentBeside = (minute: number, beside: number, context: Context): string =>
  dayKey(minute, context) === dayKey(beside, context)
    ? clockText(minute, context)
    : `${dayText(minute, context)} ${clockText(minute, context)}`
