import { type Candling, candlingFor, candlingOf, type Greenware, withCandling } from './candling.ts'
import type { FiringReason, FiringSchedule, FiringSegment } from './types.ts'

export type SharedSchedule =
  | { readonly kind: 'shared'; readonly schedule: FiringSchedule; readonly candling?: Candling }
  | { readonly kind: 'impossible'; readonly reason: FiringReason }

/** Top temperatures closer than this are one, for those who fire without cones. Our choice, well inside a kiln's own spread. */
const SAME_TOP_K = 5

/**
 * The one schedule by which a mixed bisque load is fired: at every temperature the slowest rate that any member asks, at
 * every hold the longest, and the candling that the thickest and most doubtful member needs. Cones must agree.
 * @param members at least one, each with the schedule of its design
 */
export function bisqueFor(
  members: readonly (Greenware & { readonly schedule: FiringSchedule })[],
  altitudeM = 0,
): SharedSchedule {
  const shared = slowestOf(members.map(({ schedule }) => schedule))
  if (shared.kind === 'impossible') return shared
  const candlings = members.map((member) => candlingFor(member, altitudeM))
  const candling = candlings.reduce((longest, next) =>
    next.segment.holdMin > longest.segment.holdMin ? next : longest,
  )
  return { kind: 'shared', schedule: withCandling(shared.schedule, candling), candling }
}

/**
 * The one schedule by which a mixed glaze load is fired. Ramps may differ, the slowest counts; cone, top hold and cooling
 * decide the glaze and must be the same for all.
 */
export const glazeFor = (schedules: readonly FiringSchedule[]): SharedSchedule => slowestOf(schedules)

/** Why two kinds of ware cannot go into one firing, or undefined when they can. */
export function firingDifference(a: FiringSchedule, b: FiringSchedule): FiringReason | undefined {
  if (a.kind !== b.kind) return { code: 'kinds-differ', params: { a: a.kind, b: b.kind } }
  if (a.cone !== b.cone) return { code: 'cones-differ', params: { a: a.cone ?? topOf(a), b: b.cone ?? topOf(b) } }
  if (a.cone === undefined && Math.abs(topOf(a) - topOf(b)) > SAME_TOP_K) {
    return { code: 'top-temperatures-differ', params: { a: topOf(a), b: topOf(b) } }
  }
  return a.kind === 'glaze' ? glazeDifference(a, b) : undefined
}

function slowestOf(schedules: readonly FiringSchedule[]): SharedSchedule {
  const first = schedules[0]
  if (!first) return { kind: 'impossible', reason: { code: 'no-members', params: {} } }
  for (const other of schedules) {
    const reason = firingDifference(first, other)
    if (reason) return { kind: 'impossible', reason }
  }
  // The slowest last ramp sets the top: the same cone goes down lower when it is approached slower.
  const last = schedules.reduce((slowest, next) =>
    lastOf(next).rateCPerH < lastOf(slowest).rateCPerH ? next : slowest,
  )
  const targets = schedules.flatMap((schedule) => schedule.segments.slice(candlingOf(schedule).length, -1))
  const edges = [...new Set(targets.map(({ targetC }) => targetC))].filter((targetC) => targetC < topOf(last))
  const ramps = edges
    .toSorted((a, b) => a - b)
    .map((targetC, index, rising): FiringSegment => {
      const fromC = rising[index - 1] ?? 0
      return { rateCPerH: slowestRate(schedules, fromC, targetC), targetC, holdMin: longestHold(schedules, targetC) }
    })
  const lastRate = slowestRate(schedules, edges.length ? Math.max(...edges) : 0, topOf(last))
  const top = { rateCPerH: lastRate, targetC: topOf(last), holdMin: lastOf(last).holdMin }
  return {
    kind: 'shared',
    schedule: { ...last, segments: [...slowestCandling(schedules), ...joined([...ramps, top])] },
  }
}

/** The candlings of all become one: coolest, slowest and longest. */
function slowestCandling(schedules: readonly FiringSchedule[]): FiringSegment[] {
  const all = schedules.flatMap(candlingOf)
  if (all.length === 0) return []
  return [
    {
      rateCPerH: Math.min(...all.map(({ rateCPerH }) => rateCPerH)),
      targetC: Math.min(...all.map(({ targetC }) => targetC)),
      holdMin: Math.max(...all.map(({ holdMin }) => holdMin)),
    },
  ]
}

/** The slowest rate that any schedule asks anywhere between two temperatures. */
function slowestRate(schedules: readonly FiringSchedule[], fromC: number, toC: number): number {
  const rates = schedules.flatMap(({ segments }) =>
    segments
      .filter(({ targetC }, index) => targetC > fromC && (segments[index - 1]?.targetC ?? 0) < toC)
      .filter(({ targetC }) => toC < 100 || targetC >= 100)
      .map(({ rateCPerH }) => rateCPerH),
  )
  return Math.min(...rates)
}

const longestHold = (schedules: readonly FiringSchedule[], atC: number): number =>
  Math.max(0, ...schedules.flatMap(({ segments }) => segments.filter((s) => s.targetC === atC).map((s) => s.holdMin)))

/** Neighbours of one rate without a hold between them are one ramp. */
function joined(segments: readonly FiringSegment[]): FiringSegment[] {
  return segments.filter((segment, index) => {
    const next = segments[index + 1]
    return !next || segment.holdMin > 0 || next.rateCPerH !== segment.rateCPerH
  })
}

function glazeDifference(a: FiringSchedule, b: FiringSchedule): FiringReason | undefined {
  if (lastOf(a).holdMin !== lastOf(b).holdMin) {
    return { code: 'holds-differ', params: { a: lastOf(a).holdMin, b: lastOf(b).holdMin } }
  }
  const same = JSON.stringify(a.coolingSegments ?? []) === JSON.stringify(b.coolingSegments ?? [])
  return same ? undefined : { code: 'coolings-differ', params: { a: a.name, b: b.name } }
}

const lastOf = ({ segments }: FiringSchedule): FiringSegment => segments.at(-1)!
const topOf = (schedule: FiringSchedule): number => lastOf(schedule).targetC
