/** What has to be covered or opened before the studio is left for the day. */
import type { CoverKind } from '#core/drying/types.ts'
import { countText } from '#words/amounts.ts'
import { dayKey } from '#words/times.ts'
import { coverTexts } from '#words/trade.ts'
import type { BenchView } from './rows.ts'

export type Leaving = {
  readonly runId: string
  readonly name: string
  readonly what: string
  readonly now: string
  readonly cover: CoverKind
  readonly next: string
}

/** Ware that stands otherwise than the plan has it at the end of today, unless somebody is still to work on it. */
export function beforeLeaving({ plan, state, studio, context }: BenchView): Leaving[] {
  const today = dayKey(context.nowMin, context)
  return state.runs.flatMap((run) => {
    if (run.stage !== 'clay' && run.stage !== 'drying') return []
    const planned = plan.runs.find(({ id }) => id === run.id)
    const wanted = planned?.waits.findLast(
      ({ fromMin }) => fromMin <= context.nowMin || dayKey(fromMin, context) === today,
    )
    const standing = run.waits.at(-1)
    if (!wanted || !standing || wanted.cover === standing.cover) return []
    const name = studio.designs.find(({ id }) => id === run.designId)?.name ?? run.designId
    return [
      {
        runId: run.id,
        name,
        what: countText(run.count, name),
        now: coverTexts[standing.cover],
        cover: wanted.cover,
        next: coverTexts[wanted.cover],
      },
    ]
  })
}
