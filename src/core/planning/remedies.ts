/** What would help with ware that was left out: each remedy was taken through the whole planner and found to work. */
import type { Maker, Studio } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import { unionOf } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import type { Outcome } from './construct/outcome.ts'
import type { LeftOut, PlanningCase } from './plan.ts'
import type { PlanningReason } from './reasons.ts'

/** Left-out lines that are helped at once, and remedies tried for each: every one is a plan of its own. Our choice. */
const LINES_HELPED = 2
const REMEDIES_TRIED = 3
const EXTRA_SESSION_MIN = 180

type Trial = { readonly remedy: (outcome: Outcome) => PlanningReason; readonly changed: PlanningCase }

/** The left-out list with remedies that work, for the first lines of it. */
export function withRemedies(
  planningCase: PlanningCase,
  leftOut: readonly LeftOut[],
  solve: (changed: PlanningCase) => Outcome,
): LeftOut[] {
  return leftOut.map((left, index) => {
    if (index >= LINES_HELPED || left.orderLineId === null) return left
    const works = trialsFor(planningCase, left)
      .slice(0, REMEDIES_TRIED)
      .flatMap(({ remedy, changed }) => {
        const outcome = solve(changed)
        return missingOf(outcome, left) === 0 ? [remedy(outcome)] : []
      })
    return { ...left, remedies: works }
  })
}

const missingOf = ({ leftOut }: Outcome, { orderLineId }: LeftOut): number =>
  leftOut.filter((other) => other.orderLineId === orderLineId).reduce((sum, { count }) => sum + count, 0)

function trialsFor(planningCase: PlanningCase, left: LeftOut): Trial[] {
  const codes = new Set(left.reasons.map(({ code }) => code))
  const hours = [
    'window-closes-while-nobody-there',
    'no-making-hours',
    'not-enough-hours',
    'step-longer-than-any-session',
  ] as const
  const trials: Trial[] = []
  if (hours.some((code) => codes.has(code))) trials.push(...moreHours(planningCase, left))
  if (codes.has('no-clay')) trials.push(...moreClay(planningCase, left))
  return [...trials, ...laterDate(planningCase, left), ...fewer(planningCase, left)]
}

/** A session of three hours on the evening before, or at the moment at which the window closes. */
function moreHours(planningCase: PlanningCase, { reasons }: LeftOut): Trial[] {
  const { studio, input } = planningCase
  const closing = reasons.find(({ code }) => code === 'window-closes-while-nobody-there')
  const longest = reasons.find(({ code }) => code === 'step-longer-than-any-session')
  const aroundMin = closing ? (closing.params as { closeMin: Minute }).closeMin : input.nowMin + MIN_PER_DAY
  const lengthMin = longest ? (longest.params as { neededMin: number }).neededMin + 30 : EXTRA_SESSION_MIN
  const endMin = Math.max(aroundMin, input.nowMin + lengthMin)
  return studio.makers.slice(0, 2).map((maker) => {
    const startMin = endMin - lengthMin
    const changed = { ...planningCase, studio: withSession(studio, maker, startMin, endMin) }
    return { changed, remedy: () => ({ code: 'remedy-more-hours', params: { maker: maker.name, startMin, endMin } }) }
  })
}

function withSession(studio: Studio, maker: Maker, startMin: Minute, endMin: Minute): Studio {
  const extra = { startMin, endMin }
  const longer = {
    ...maker,
    makingHours: unionOf([...maker.makingHours, extra]),
    lookInHours: unionOf([...maker.lookInHours, extra]),
    kilnWatchHours: unionOf([...maker.kilnWatchHours, extra]),
  }
  return { ...studio, makers: studio.makers.map((other) => (other.id === maker.id ? longer : other)) }
}

function moreClay(planningCase: PlanningCase, { reasons }: LeftOut): Trial[] {
  const short = reasons.find(({ code }) => code === 'no-clay')
  if (!short) return []
  const { clay: name, neededKg } = short.params as { clay: string; neededKg: number }
  const massKg = Math.ceil(neededKg / 10) * 10
  const clays = planningCase.studio.clays.map((clay) =>
    clay.name === name ? { ...clay, onHandKg: clay.onHandKg + massKg } : clay,
  )
  return [
    {
      changed: { ...planningCase, studio: { ...planningCase.studio, clays } },
      remedy: () => ({ code: 'remedy-more-clay', params: { clay: name, massKg } }),
    },
  ]
}

/** The same order with as much time as the plan looks ahead; the remedy says when it would be packed. */
function laterDate(planningCase: PlanningCase, { orderId, orderLineId }: LeftOut): Trial[] {
  const orders = planningCase.studio.orders.map((order) =>
    order.id === orderId ? { ...order, packedByMin: planningCase.horizonMin } : order,
  )
  return [
    {
      changed: { ...planningCase, studio: { ...planningCase.studio, orders } },
      remedy: ({ promises }) => ({
        code: 'remedy-later-date',
        params: {
          readyMin:
            promises.find((promise) => promise.orderLineId === orderLineId)?.readyMin ?? planningCase.horizonMin,
        },
      }),
    },
  ]
}

function fewer(planningCase: PlanningCase, { orderId, orderLineId, count }: LeftOut): Trial[] {
  const half = Math.floor(count / 2)
  if (half < 1) return []
  const orders = planningCase.studio.orders.map((order) =>
    order.id === orderId
      ? {
          ...order,
          lines: order.lines.map((line) =>
            line.id === orderLineId ? { ...line, count: line.count - (count - half) } : line,
          ),
        }
      : order,
  )
  return [
    {
      changed: { ...planningCase, studio: { ...planningCase.studio, orders } },
      remedy: () => ({ code: 'remedy-fewer', params: { count: count - half } }),
    },
  ]
}
