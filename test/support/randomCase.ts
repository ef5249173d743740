/** Studios, logs and days as they come: small ones, so that many can be planned. */
import type { Entry } from '#core/logbook/entry.ts'
import type { Plan, PlanningCase } from '#core/planning/plan.ts'
import type { Rng } from '#core/rng.ts'
import type { Design, Maker, Order, Studio } from '#core/studio/studio.ts'
import { aClay, aDesign, aPart, aStep, traySteps } from './designBuilders.ts'
import { aKiln, aSquareKilnSpace, aSupply } from './kilnBuilders.ts'
import { anEntry } from './entryBuilders.ts'
import { aRandomLog } from './randomLog.ts'
import {
  aGlaze,
  aMaker,
  aMould,
  anOrder,
  anOrderLine,
  aPlanningCase,
  aPlanInput,
  aSpot,
  aStudio,
  at,
  everyDay,
  hoursOn,
  usualRules,
} from './studioBuilders.ts'

type Pick = <Value>(values: readonly Value[]) => Value
const pickWith =
  (rng: Rng): Pick =>
  (values) =>
    values[rng.int(values.length)]!

/** One maker or two, a kiln or two, up to three designs and four orders; some of it tight, some of it impossible. */
export function aRandomStudio(rng: Rng): Studio {
  const pick = pickWith(rng)
  const designs = [randomTray(rng), randomDraped(rng), randomTall(rng)].slice(0, 1 + rng.int(3))
  const makers = [randomMaker(rng, 'mara'), ...(rng.int(2) === 0 ? [randomMaker(rng, 'jon')] : [])]
  const kilns = [
    aKiln({ firing: { ...aKiln().firing, switchUpsMin: rng.int(6) === 0 ? [120, 240] : [] } }),
    ...(rng.int(3) === 0 ? [aKiln({ id: 'square-kiln', name: 'Square kiln', space: aSquareKilnSpace() })] : []),
  ]
  return aStudio({
    rules: {
      ...usualRules,
      windowOdds: pick([0.8, 0.9]),
      leastSessionMin: pick([30, 60]),
      wantedFill: pick([0.5, 0.8]),
    },
    wareBoardCount: pick([6, 12, 30]),
    makers,
    spots: [
      aSpot({ boardCount: pick([4, 12, 24]) }),
      ...(rng.int(2) === 0 ? [aSpot({ id: 'heater', name: 'By the heater', air: { kind: 'word', word: 'dry' } })] : []),
    ],
    covers: pick([
      ['open', 'cloth', 'loose', 'tucked', 'sealed'],
      ['open', 'loose', 'sealed'],
      ['open', 'tucked'],
    ] as const),
    clays: [
      aClay({ onHandKg: pick([10, 60, 200]), deliveries: rng.int(2) === 0 ? [{ minute: at(9, 10), massKg: 50 }] : [] }),
    ],
    glazes: [
      aGlaze({ onHandL: pick([null, null, 1]) }),
      aGlaze({ id: 'ash', name: 'Ash', coneLow: pick(['5', '8']), coneHigh: '10' }),
    ],
    supplies: [aSupply({ kilnsAtOnce: pick([1, 2]) })],
    kilns,
    moulds: [aMould({ count: pick([2, 8]) })],
    designs,
    orders: Array.from({ length: rng.int(5) }, (_, i) => randomOrder(rng, designs, i)),
    stock:
      rng.int(2) === 0
        ? [
            {
              id: 'stock',
              designId: designs[0]!.id,
              stage: pick(['bisque', 'finished'] as const),
              glazeId: null,
              count: 1 + rng.int(5),
            },
          ]
        : [],
    pins:
      rng.int(6) === 0
        ? [
            {
              id: 'pin',
              runId: `new:${designs[0]!.id}:1`,
              stepId: 'cut',
              startMin: at(1 + rng.int(3), 8 + rng.int(6)),
              makerId: null,
            },
          ]
        : [],
  })
}

function randomMaker(rng: Rng, id: string): Maker {
  const days = everyDay.filter(() => rng.int(3) > 0)
  const from = 7 + rng.int(11)
  const to = Math.min(22, from + 2 + rng.int(6))
  const making = rng.int(12) === 0 ? [] : hoursOn(days, from, to)
  const skills = rng.int(3) === 0 ? (['slab', 'join', 'surface', 'finish'] as const) : aMaker().skills
  return aMaker({
    id,
    name: id,
    skills,
    makingHours: making,
    lookInHours: hoursOn(everyDay, Math.min(from, 7.5), Math.max(to, 21)),
    kilnWatchHours: hoursOn(everyDay, Math.min(from, 7), Math.max(to, 22.5)),
  })
}

const randomTray = (rng: Rng): Design => {
  const thicknessMm = 5 + rng.int(7)
  return aDesign({
    parts: aDesign().parts.map((part) => ({
      ...part,
      thicknessMm,
      templateState: rng.int(2) === 0 ? 'fresh' : 'leather hard',
    })),
    thickestMm: thicknessMm + rng.int(5),
    mostPerRun: 2 + rng.int(10),
    glazeIds: ['white', 'ash'],
  })
}

const randomDraped = (rng: Rng): Design =>
  aDesign({
    id: 'bowl',
    name: 'Bowl',
    outline: 'round',
    lengthMm: 180,
    widthMm: 180,
    heightMm: 60,
    parts: [aPart({ id: 'slab', name: 'Slab', lengthMm: 200, widthMm: 200, thicknessMm: 6 })],
    steps: [
      aStep(),
      aStep({
        id: 'drape',
        kind: 'drape',
        name: 'Drape',
        minPerPiece: 4,
        band: { from: 'soft', to: 'leather hard' },
        mouldId: 'hump',
      }),
      aStep({
        id: 'release',
        kind: 'release',
        name: 'Lift off',
        needs: 'surface',
        minPerPiece: 2,
        band: { from: 'leather hard', to: 'chalky' },
        mouldId: 'hump',
      }),
      ...traySteps.slice(2),
    ],
    evenOutHours: { least: rng.int(2) * 12, most: 96 },
    mostPerRun: 8,
  })

const randomTall = (rng: Rng): Design =>
  aDesign({
    id: 'vase',
    name: 'Vase',
    lengthMm: 90,
    widthMm: 90,
    heightMm: rng.int(8) === 0 ? 900 : 150 + rng.int(300),
    closedForm: true,
    piecesPerBoard: 6,
    losses: {
      dryingRatio: rng.int(3) / 10,
      bisqueRatio: 0,
      glazeRatio: rng.int(3) / 20,
      secondRatio: 0,
      correlation: rng.int(4) / 10,
    },
  })

function randomOrder(rng: Rng, designs: readonly Design[], index: number): Order {
  const pick = pickWith(rng)
  return anOrder({
    id: `order-${index}`,
    kind: pick(['customer', 'market', 'stock'] as const),
    packedByMin: at(pick([-2, 3, 14, 24, 30, 40])),
    weight: pick([0.5, 1, 3]),
    lines: Array.from({ length: 1 + rng.int(2) }, (_, line) =>
      anOrderLine({
        id: `line-${index}-${line}`,
        designId: pick(designs).id,
        glazeId: pick([null, 'white', 'ash']),
        count: 1 + rng.int(9),
      }),
    ),
  })
}

/** A case over a random studio: nothing logged, or a week's log with slips in it. */
export function aRandomCase(rng: Rng): PlanningCase {
  const studio = aRandomStudio(rng)
  const log = rng.int(2) === 0 ? [] : shifted(aRandomLog(rng, 4 + rng.int(40), 0.15), at(-7, 9) + rng.int(4_000))
  const lastMin = Math.max(at(0, 8), ...log.map(({ happenedMin }) => happenedMin))
  const nowMin = Math.min(at(6, 8 + rng.int(12), rng.int(60)), lastMin + rng.int(600))
  const entries = log.filter(({ happenedMin }) => happenedMin <= nowMin)
  return aPlanningCase({
    input: aPlanInput({ nowMin, seed: rng.int(1_000), logPosition: entries.length }),
    studio,
    entries,
    holdUntilMin: Math.ceil((nowMin + 1) / 1_440) * 1_440 + 1_440,
    horizonMin: nowMin + 42 * 1_440,
  })
}

const shifted = (log: readonly Entry[], byMin: number): Entry[] =>
  log.map((entry) => ({ ...entry, happenedMin: entry.happenedMin + byMin }))

/** The same case some hours later, with the plan seen and part of it done, late, or done otherwise. */
export function laterCase(rng: Rng, before: PlanningCase, plan: Plan): PlanningCase {
  const nowMin = before.input.nowMin + 30 + rng.int(2_000)
  const done = plan.tasks
    .filter((task) => task.endMin <= nowMin && rng.int(5) > 0)
    .flatMap((task, i) => entryOf(rng, before, plan, task.id, i))
  const entries = [...before.entries, ...done]
  return {
    ...before,
    input: { ...before.input, nowMin, basePlanId: plan.id, logPosition: entries.length },
    entries,
    basePlan: plan,
    holdUntilMin: Math.ceil((nowMin + 1) / 1_440) * 1_440 + 1_440,
  }
}

/** What a potter would tap when this task is done; nothing for what is not clay any more. */
function entryOf(rng: Rng, { studio }: PlanningCase, plan: Plan, taskId: string, index: number): Entry[] {
  const task = plan.tasks.find(({ id }) => id === taskId)!
  const run = plan.runs.find(({ id }) => id === task.runId)!
  const design = studio.designs.find(({ id }) => id === run.designId)!
  const step = design.steps.find(({ id }) => id === task.stepId)
  const runId = task.runId.startsWith('new:') ? task.runId.replaceAll(':', '-') : task.runId
  const around = { id: `done-${task.startMin}-${index}-${taskId}`, deviceSeq: 1_000 + index }
  const when = task.endMin - rng.int(20)
  const { cover, spotId } = task.after ?? { cover: 'sealed' as const, spotId: studio.spots[0]!.id }
  if (task.kind === 'look-in') {
    const wait = task.after ?? (task.parkWhen ? { cover: task.parkWhen.cover, spotId } : null)
    return wait ? [anEntry('covered', when, { runId, cover: wait.cover }, around)] : []
  }
  switch (step?.kind) {
    case 'cut':
      return [anEntry('cut', when, { runId, designId: design.id, count: task.count, cover, spotId }, around)]
    case 'join':
    case 'drape':
    case 'release':
      return [anEntry('joined', when, { runId, stepId: step.id, count: task.count, cover, spotId }, around)]
    case 'glaze':
      return [
        anEntry(
          'glazed',
          when,
          {
            runId,
            designId: design.id,
            intoRunId: `${runId}-g${index}`,
            glazeId: task.glazeId ?? 'white',
            count: task.count,
          },
          around,
        ),
      ]
    case 'finish':
      return [anEntry('finished', when, { runId, count: task.count }, around)]
    default:
      return []
  }
}
