/** What a line of an order waits for: the runs that are to fill it, each with what comes next. */
import type { Plan, PlannedRun } from '#core/planning/plan.ts'
import type { Minute } from '#core/time.ts'
import { countText } from '#words/amounts.ts'
import type { Context } from '#words/context.ts'
import { momentText } from '#words/times.ts'
import type { Studio } from '../data/queries.ts'

type Line = { readonly id: string; readonly designId: string }
type Coming = { readonly atMin: Minute; readonly what: string }

/** A sentence for each run: the next step of hands, then the firings it goes through. */
export function waitingFor(line: Line, plan: Plan, studio: Studio, context: Context): string[] {
  const design = studio.designs.find(({ id }) => id === line.designId)
  const name = design?.name ?? line.designId
  return plan.runs.flatMap((run) => {
    const count = run.allotments
      .filter(({ orderLineId }) => orderLineId === line.id)
      .reduce((sum, allotment) => sum + allotment.count, 0)
    if (count === 0) return []
    const next = nextStep(run, plan, design?.steps ?? [])
    const coming = [...(next ? [next] : []), ...firingsOf(run, plan)].toSorted((a, b) => a.atMin - b.atMin)
    const said = coming.map(({ atMin, what }) => `${what} ${momentText(atMin, context)}`)
    return [
      `${countText(count, name)}${outOf(run)} ${standingOf(run)}${said.length > 0 ? `: ${said.join('; ')}` : ''}.`,
    ]
  })
}

/** Told where there are more of them than orders ask for: spare against losses. */
function outOf({ count, allotments }: PlannedRun): string {
  const asked = allotments.reduce((sum, allotment) => sum + allotment.count, 0)
  return count > asked ? ` of ${count}` : ','
}

const standingOf = ({ underWay, cutMin }: PlannedRun): string =>
  underWay ? 'under way' : cutMin === null ? 'bisque from the shelf' : 'to be begun'

function nextStep(
  { id }: PlannedRun,
  { tasks }: Plan,
  steps: readonly { readonly id: string; readonly name: string }[],
): Coming | undefined {
  const [first] = tasks
    .filter(({ runId, kind }) => runId === id && kind === 'step')
    .toSorted((a, b) => a.startMin - b.startMin)
  if (!first) return undefined
  const what = steps.find((step) => step.id === first.stepId)?.name ?? first.stepId
  return { atMin: first.startMin, what: `next ${what.toLowerCase()}` }
}

/** One word for each kind of firing; where a run is divided over several, the last is what is waited for. */
function firingsOf({ id }: PlannedRun, { firings }: Plan): Coming[] {
  const own = firings.filter(({ members }) => members.some(({ runId }) => runId === id))
  return (['bisque', 'glaze'] as const).flatMap((kind): Coming[] => {
    const those = own.filter((firing) => firing.kind === kind).toSorted((a, b) => a.loadMin - b.loadMin)
    const last = those.at(-1)
    if (!last) return []
    if (last.underWay) return [{ atMin: last.emptyMin, what: `in the ${kind} firing, out` }]
    const into = those.length === 1 ? `into the ${kind} firing` : `into ${those.length} ${kind} firings, the last`
    return [{ atMin: last.loadMin, what: into }]
  })
}
