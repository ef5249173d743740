/** After the last step: resting, loosening, opening, and when the ware is dry. */
import type { CoverKind, CoverSpan } from '#core/drying/types.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import type { Job } from '../jobs.ts'
import type { PlanningReason } from '../reasons.ts'
import { type Chain, covered, lookInId } from './chain.ts'
import { type Desk, stepTask } from './desk.ts'
import { earliestSlot } from './diary.ts'
import { builtNow } from './runsNow.ts'
import { dryMinutes } from './settle.ts'
import type { ClayState } from './wares.ts'

type RestStage = { readonly cover: CoverKind; readonly leastMin: number }
const restStage = (cover: CoverKind, leastHours: number): RestStage => ({ cover, leastMin: leastHours * MIN_PER_HOUR })

/** After the last step: sealed to even out, loosened, opened, each at a look-in; then when it is dry. */
export function restAndOpen(
  desk: Desk,
  job: Job,
  chain: Chain,
  state: ClayState,
): { readonly chain: Chain; readonly dryByDrawMin: readonly number[] } | PlanningReason {
  const { design } = job
  const { covers, rules } = desk.given.studio
  const lastStepMin = chain.tasks.length > 0 ? state.minute : (job.state?.lastStepMin ?? state.minute)
  const first = (kinds: readonly CoverKind[]) => kinds.find((cover) => covers.includes(cover))
  const resting = first(['sealed', 'tucked', 'damp cupboard']) ?? 'sealed'
  const loosened = first(['loose', 'tucked', 'sealed']) ?? resting
  const opened = first(['open', 'cloth']) ?? 'open'
  let next = chain
  const stages: readonly RestStage[] = [
    ...(design.evenOutHours.least > 0 ? [restStage(resting, design.evenOutHours.least)] : []),
    ...(design.slowDryHours > 0 ? [restStage(loosened, design.slowDryHours)] : []),
    restStage(opened, 0),
  ]
  let fromMin = state.minute
  let remaining = stages
  if (chain.tasks.length > 0) {
    next = { ...next, ...covered(next, stages[0]!.cover, chain.spot.id, fromMin) }
  } else {
    // Under way with its last step done: it is in one of these stages already, by the cover that lies over it.
    const over = job.state?.waits.at(-1)
    const at = Math.max(
      0,
      stages.findIndex(({ cover }) => cover === over?.cover),
    )
    remaining = stages.slice(at)
    fromMin = Math.max(over?.fromMin ?? lastStepMin, lastStepMin)
  }
  const spans: CoverSpan[] = chain.tasks.length > 0 ? [{ fromMin, cover: stages[0]!.cover, spotId: chain.spot.id }] : []
  for (let i = 0; i + 1 < remaining.length; i++) {
    const readyMin = Math.max(fromMin + remaining[i]!.leastMin, desk.given.nowMin)
    const lookIn = earliestSlot(desk.diary, 'look-in', null, rules.lookInMin, readyMin, desk.given.horizonMin)
    if (!lookIn) return { code: 'no-making-hours', params: { work: 'look-in' } }
    const after = { cover: remaining[i + 1]!.cover, spotId: chain.spot.id }
    const task = stepTask(job.id, lookInId(lookIn), lookIn, job.count, { kind: 'look-in', after })
    next = {
      ...next,
      tasks: [...next.tasks, task],
      waits: [...next.waits, { fromMin: lookIn.endMin, ...after }],
    }
    spans.push({ fromMin: lookIn.endMin, ...after })
    fromMin = lookIn.endMin
  }
  if (chain.tasks.length === 0) {
    const over = job.state?.waits.at(-1)
    spans.unshift({ fromMin: state.minute, cover: over?.cover ?? 'open', spotId: chain.spot.id })
  }
  const built = chain.legs.length === 0 && job.stage !== 'begun' ? builtNow(desk, job, chain.ware) : null
  return { chain: next, dryByDrawMin: dryMinutes(desk.given.wares, chain.ware, state, spans, built) }
}
