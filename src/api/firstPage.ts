import { html } from 'hono/html'
import { onlyStudio } from '#app/records/onlyStudio.ts'
import { Refusal } from '#app/refusal.ts'
import type { Plan } from '#core/planning/plan.ts'
import { latestPlan } from '#store/plans.ts'
import { findStudio } from '#store/studios.ts'
import type { Desk } from './parts.ts'

type Line = { readonly startMin: number; readonly what: string }

/** The server's state and its plan as plain text, for where the app itself was not built. Shows itself anew now and then. */
export async function firstPage({ db, planner }: Pick<Desk, 'db' | 'planner'>) {
  const text = await stateText(db, planner)
  return html`<!doctype html>
    <html lang="en">
      <meta charset="utf-8" />
      <meta http-equiv="refresh" content="15" />
      <meta name="viewport" content="width=device-width" />
      <title>Wareboard</title>
      <h1>Wareboard</h1>
      <p>The server runs. <a href="/api/openapi.json">What it can be asked</a></p>
      <pre>${text}</pre>
    </html>`
}

async function stateText(db: Desk['db'], planner: Desk['planner']): Promise<string> {
  try {
    const { id, name, zone } = await onlyStudio(db)
    const studio = await findStudio(db, id)
    const plan = await latestPlan(db, id)
    const progress = planner.progressOf(id).doing
    const head = `${name}, ${studio?.wareBoardCount ?? 0} ware boards. Planning: ${progress}.`
    return plan ? `${head}\n\n${planLines(plan, zone).join('\n')}` : `${head} There is no plan yet.`
  } catch (error) {
    if (error instanceof Refusal) return error.message
    throw error
  }
}

function planLines(plan: Plan, zone: string): string[] {
  const designOf = new Map(plan.runs.map(({ id, designId }) => [id, designId]))
  const hands = plan.tasks.map(({ startMin, count, stepId, runId }): Line => ({
    startMin,
    what: `${stepId}, ${count} × ${designOf.get(runId) ?? runId}`,
  }))
  const kilns = plan.kilnTasks.map(({ startMin, kind, firingId }): Line => ({ startMin, what: `${kind} ${firingId}` }))
  const time = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    weekday: 'short',
    day: '2-digit',
    month: 'short',
    hour: '2-digit',
    minute: '2-digit',
  })
  return [...hands, ...kilns]
    .toSorted((a, b) => a.startMin - b.startMin)
    .map(({ startMin, what }) => `${time.format(startMin * 60_000)}  ${what}`)
}
