/** Random studios whose runs are on their way by an orderly log: every plan that is made passes every check. */
import type { Entry } from '#core/logbook/entry.ts'
import { checkPlan } from '#core/planning/check/checkPlan.ts'
import { makePlan } from '#core/planning/makePlan.ts'
import type { PlanningCase } from '#core/planning/plan.ts'
import type { Rng } from '#core/rng.ts'
import { seededRng } from '#core/rng.ts'
import type { Order, Studio } from '#core/studio/studio.ts'
import { aDesign, aStep, traySteps } from '../support/designBuilders.ts'
import { aKiln, aSquareKilnSpace } from '../support/kilnBuilders.ts'
import { anOrderlyLog } from '../support/randomLog.ts'
import {
  aGlaze,
  aMaker,
  aMould,
  anOrder,
  anOrderLine,
  aPlanInput,
  aPlanningCase,
  aSpot,
  aStudio,
  at,
} from '../support/studioBuilders.ts'

export function run(cases: number, seed: number): { failures: number; report: string } {
  const failed: string[] = []
  let tasks = 0
  let firings = 0
  for (let number = 0; number < cases; number++) {
    const planningCase = aRandomCase(seededRng(seed * 1_000_003 + number), number)
    const plan = makePlan(planningCase)
    const breaches = checkPlan(planningCase, plan)
    tasks += plan.tasks.length
    firings += plan.firings.length
    if (breaches.length > 0) failed.push(`case ${number}: ${JSON.stringify(breaches[0])}`)
  }
  const report = `${cases} plans, ${tasks} tasks, ${firings} firings\n${failed.slice(0, 20).join('\n')}`
  return { failures: failed.length, report }
}

const planterSteps = [
  aStep(),
  aStep({
    id: 'drape',
    kind: 'drape',
    needs: 'join',
    minPerPiece: 4,
    band: { from: 'any', to: 'leather hard' },
    mouldId: 'hump',
  }),
  aStep({ id: 'release', kind: 'release', needs: 'join', minPerPiece: 3, band: { from: 'soft', to: 'firm' } }),
  aStep({ id: 'join', kind: 'join', needs: 'join', minPerPiece: 15, band: { from: 'leather hard', to: 'firm' } }),
  aStep({
    id: 'stamp',
    kind: 'surface',
    needs: 'surface',
    setupMin: 2,
    minPerPiece: 1,
    band: { from: 'any', to: 'chalky' },
  }),
  ...traySteps.slice(2),
]

/** One to four orders over seven weeks, up to six runs on their way with a tick forgotten here and there. */
function aRandomCase(rng: Rng, number: number): PlanningCase {
  const nowMin = at(rng.int(5), 8 + rng.int(5))
  const studio = aRandomStudio(rng)
  const kilnIds = [studio.kilns[0]!.id, studio.kilns.at(-1)!.id] as const
  const entries = anOrderlyLog(rng, rng.int(7), 0.03).map((entry) => inThisStudio(entry, kilnIds))
  return aPlanningCase({
    studio,
    entries: entries.filter(({ happenedMin }) => happenedMin <= nowMin),
    input: aPlanInput({ nowMin, seed: number }),
  })
}

function aRandomStudio(rng: Rng): Studio {
  const planter = {
    id: 'planter',
    name: 'Planter',
    outline: 'round',
    lengthMm: 180,
    widthMm: 180,
    heightMm: 120,
  } as const
  return aStudio({
    designs: [
      aDesign({ glazeIds: ['white', 'blue'] }),
      aDesign({ ...planter, piecesPerBoard: 2, steps: planterSteps }),
    ],
    glazes: [aGlaze(), aGlaze({ id: 'blue', name: 'Blue', onHandL: rng.int(2) === 0 ? null : 2 })],
    moulds: [aMould()],
    spots: [aSpot(), aSpot({ id: 'heater', name: 'By the heater', boardCount: 6, air: { kind: 'word', word: 'dry' } })],
    kilns: [
      aKiln(),
      ...(rng.int(2) === 0 ? [] : [aKiln({ id: 'square', name: 'Square kiln', space: aSquareKilnSpace() })]),
    ],
    makers: [aMaker(), ...(rng.int(2) === 0 ? [] : [aMaker({ id: 'ben', name: 'Ben', skills: ['slab', 'glaze'] })])],
    orders: Array.from({ length: 1 + rng.int(4) }, (_, index) => aRandomOrder(rng, index)),
  })
}

function aRandomOrder(rng: Rng, number: number): Order {
  const glazeId = [null, 'white', 'blue'][rng.int(3)] ?? null
  const designId = rng.int(3) === 0 ? 'planter' : 'tray'
  const more = anOrderLine({ id: `more-${number}`, count: 1 + rng.int(6), glazeId: 'blue' })
  return anOrder({
    id: `order-${number}`,
    packedByMin: at(20 + rng.int(30)),
    weight: 1 + rng.int(3),
    lines: [
      anOrderLine({ id: `line-${number}`, designId, count: 1 + rng.int(9), glazeId }),
      ...(rng.int(2) === 0 ? [] : [more]),
    ],
  })
}

/** The orderly log is told of kilns and days of its own. */
function inThisStudio(entry: Entry, [bisqueKilnId, glazeKilnId]: readonly [string, string]): Entry {
  const happenedMin = entry.happenedMin + at(-12, 9)
  if (entry.kind !== 'loaded') return { ...entry, happenedMin }
  const isGlaze = entry.body.firingKind === 'glaze'
  const body = {
    ...entry.body,
    kilnId: isGlaze ? glazeKilnId : bisqueKilnId,
    scheduleId: isGlaze ? 'glaze-6' : 'bisque-06',
  }
  return { ...entry, happenedMin, body }
}
