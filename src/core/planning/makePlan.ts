/** The plan of a case: constructed, improved for as many rounds as asked, and nothing of it by chance or clock. */
import { demandBook } from '#core/drying/demand.ts'
import { logStateOf } from '#core/logbook/fold.ts'
import { seededRng, seedOf } from '#core/rng.ts'
import type { Design, Spot, Studio } from '#core/studio/studio.ts'
import { MIN_PER_DAY, MIN_PER_HOUR } from '#core/units.ts'
import { blankCalendars, type Given, type Leaning } from './construct/desk.ts'
import { construct } from './construct/construct.ts'
import { outcomeOf, type Outcome } from './construct/outcome.ts'
import { emptyWares, type Ware } from './construct/wares.ts'
import { commonDraws } from './facts/commonDraws.ts'
import { builtClassOf, partClassesOf } from './facts/partClasses.ts'
import { clayOf, sizeGoingIn, type SizeGoingIn } from './facts/pieces.ts'
import { airOfSpots } from './facts/spotAir.ts'
import { type Job, jobsOf } from './jobs.ts'
import type { LineNeed } from './needs.ts'
import { offersOf } from './offers.ts'
import { withRemedies } from './remedies.ts'
import { type Costs, costNames, type Plan, type PlanningCase } from './plan.ts'

/** Running sums of drying air reach this far beyond the horizon. */
const BOOK_BEYOND_MIN = 5 * MIN_PER_DAY

/** Spare pieces take boards and kilns: where something else is left out, runs are begun for no more than these odds. Our choice. */
const SPARING_ODDS = 0.8

/** How the search is watched and stopped; neither changes what a given effort finds, only how much of it is done. */
export type Watch = {
  readonly cancelled?: () => boolean
  readonly onRound?: (round: number, best: Costs) => void
}

/**
 * A plan for the case. It always comes out: what cannot be kept is left out by name, with its cause.
 * @param planningCase its `input.effort` is the number of rounds of improvement after the first plan
 * @returns the same bytes for the same case, on any machine, in any zone (one major version of the engine)
 */
export function makePlan(planningCase: PlanningCase, watch: Watch = {}): Plan {
  const ground = givenOf(planningCase)
  const { needs } = ground
  let { given } = ground
  const attempt = (leaning: Leaning): Outcome => outcomeOf(given, construct(given, leaning), needs)
  let leaning: Leaning = { ...usualLeaning, soonOrderIds: planningCase.soonOrderIds ?? [] }
  let best = attempt(leaning)
  if (best.leftOut.length > 0) {
    const sparing = { ...given, jobs: plannable(jobsOf(given.studio, given.state, SPARING_ODDS).jobs, given.studio) }
    const outcome = outcomeOf(sparing, construct(sparing, leaning), needs)
    if (compareCosts(outcome.costs, best.costs) < 0) {
      best = outcome
      given = sparing
    }
  }
  const rng = seededRng(seedOf(`${planningCase.input.seed} leanings`))
  for (let round = 1; round <= planningCase.input.effort; round++) {
    if (watch.cancelled?.()) break
    const other = otherLeaning(leaning, best, round, rng.next)
    const outcome = attempt(other)
    if (compareCosts(outcome.costs, best.costs) < 0) {
      best = outcome
      leaning = other
    }
    watch.onRound?.(round, best.costs)
  }
  const plan = { id: planIdOf(planningCase), input: planningCase.input, ...best, offers: [] }
  if (planningCase.isTrial) return plan
  const free = planningCase.basePlan ? attempt({ ...leaning, holds: false }) : null
  return {
    ...plan,
    leftOut: withRemedies(planningCase, best.leftOut, (changed) => firstOutcome(changed, leaning, given)),
    offers: free ? offersOf(planningCase, best, free) : [],
  }
}

/** One construction for a case with other hours, orders or stores: its clay dries as in the case it was made from. */
function firstOutcome(planningCase: PlanningCase, leaning: Leaning, { wares, firingTimes }: Given): Outcome {
  const { given, needs } = givenOf(planningCase)
  const changed = { ...given, wares, firingTimes }
  return outcomeOf(changed, construct(changed, leaning), needs)
}

/** Negative if `a` is the better one: the first level in which they differ decides. */
export function compareCosts(a: Costs, b: Costs): number {
  for (const name of costNames) if (a[name] !== b[name]) return a[name] - b[name]
  return 0
}

const usualLeaning: Leaning = {
  patience: { bisque: 0.6, glaze: 0.6 },
  leadDays: 32,
  first: [],
  soonOrderIds: [],
  holds: true,
}
const patiences = [0.3, 0.6, 0.85, 1] as const
const leads = [22, 27, 32, 38, 50, 70] as const

/** Another way to lean: jobs that came too late go first, kilns wait more or less, runs are begun sooner or later. */
function otherLeaning(from: Leaning, best: Outcome, round: number, chance: () => number): Leaning {
  const late = best.leftOut.flatMap(({ runId }) => (runId ? [runId] : []))
  const lateLines = new Set(
    best.promises.filter(({ wanted, onTime }) => onTime < wanted).map(({ orderLineId }) => orderLineId),
  )
  const lateRuns = best.runs
    .filter(({ allotments }) => allotments.some(({ orderLineId }) => lateLines.has(orderLineId ?? '')))
    .map(({ id }) => id)
  const pick = <Value>(values: readonly Value[]): Value => values[Math.floor(chance() * values.length)]!
  const first =
    round % 2 === 1 && (late.length > 0 || lateRuns.length > 0)
      ? [...new Set([...late, ...lateRuns, ...from.first])]
      : from.first
  return { ...from, first, patience: { bisque: pick(patiences), glaze: pick(patiences) }, leadDays: pick(leads) }
}

/** Of clay that the studio knows. */
const plannable = (jobs: readonly Job[], studio: Studio): readonly Job[] =>
  jobs.filter(({ design }) => clayOf(studio, design) !== undefined)

function givenOf(planningCase: PlanningCase): { readonly given: Given; readonly needs: readonly LineNeed[] } {
  const { studio, entries, input, horizonMin } = planningCase
  const state = logStateOf(studio, entries)
  const { jobs, needs } = jobsOf(studio, state, 1)
  const airOfSpot = airOfSpots(planningCase)
  const known = new Map<string, Ware>()
  const futures = new Map<string, Pick<Ware, 'draws' | 'book'>>()
  const futuresOf = (design: Design): Pick<Ware, 'draws' | 'book'> => {
    const draws = commonDraws(clayOf(studio, design)!, input.seed)
    const endMin = horizonMin + BOOK_BEYOND_MIN
    const made = futures.get(design.clayId) ?? {
      draws,
      book: { sums: demandBook(draws, airOfSpot, input.nowMin, endMin), endMin: endMin - MIN_PER_HOUR },
    }
    futures.set(design.clayId, made)
    return made
  }
  const wareOf = (job: Job, spot: Spot): Ware => {
    const key = `${job.design.id} ${spot.id}`
    const ware = known.get(key) ?? makeWare(key, job, spot)
    known.set(key, ware)
    return ware
  }
  const makeWare = (key: string, { design }: Job, spot: Spot): Ware => {
    const parts = partClassesOf(design, spot.board)
    const names = parts.map((part) => JSON.stringify(part))
    const distinct = [...new Set(names)]
    return {
      key,
      classes: distinct.map((name) => parts[names.indexOf(name)]!),
      classOfPart: names.map((name) => distinct.indexOf(name)),
      partNames: design.parts.map(({ name }) => name),
      built: builtClassOf(design, spot.board),
      ...futuresOf(design),
      airOfSpot,
    }
  }
  const given: Given = {
    planningCase,
    studio,
    state,
    airOfSpot,
    wares: emptyWares(),
    firingTimes: new Map(),
    sizeOf: remembered((design, kind) => sizeGoingIn(studio, design, kind)),
    wareOf,
    jobs: plannable(jobs, studio),
    designs: new Map(studio.designs.map((design) => [design.id, design])),
    nowMin: input.nowMin,
    horizonMin,
    blank: blankCalendars(studio, state, input.nowMin),
  }
  return { given, needs }
}

/** The same answer for the same design and kind, reckoned once. */
function remembered(sizeOf: Given['sizeOf']): Given['sizeOf'] {
  const known = new Map<string, SizeGoingIn>()
  return (design, kind) => {
    const key = `${design.id} ${kind}`
    const size = known.get(key) ?? sizeOf(design, kind)
    known.set(key, size)
    return size
  }
}

/** A name that hangs on what the plan was made from and on nothing else. */
const planIdOf = ({ input, studio }: PlanningCase): string =>
  `plan-${input.logPosition}-${seedOf(`${studio.id} ${JSON.stringify(input)}`).toString(36)}`
