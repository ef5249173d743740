/** The plan made by hand, spoilt in as many ways as there are checks, and more. */
import type { Entry } from '#core/logbook/entry.ts'
import type { KilnTask, Plan, PlannedFiring, PlannedRun, PlanningCase, RunTask } from '#core/planning/plan.ts'
import type { DesignStep, Studio } from '#core/studio/studio.ts'
import { aDesign } from '../../support/designBuilders.ts'
import { anEntry } from '../../support/entryBuilders.ts'
import { handCase, handPlan, RUN } from '../../support/handPlan.ts'
import { aGlazeSchedule, aKiln } from '../../support/kilnBuilders.ts'
import { aMould, anOrder, anOrderLine, aPin, aStockItem, at } from '../../support/studioBuilders.ts'

export type Spoilt = { readonly plan?: Plan; readonly planningCase?: PlanningCase }

const { studio } = handCase
const [bisque, glaze] = handPlan.firings as [PlannedFiring, PlannedFiring]
const tray = studio.designs[0]!
const taskOf = (id: string): RunTask => handPlan.tasks.find((task) => task.id === id)!
const cut = `${RUN}/cut`
const join = `${RUN}/join`
const glazing = `${RUN}/glaze`
const pack = `${RUN}/pack`
const lookIn = (number: number): string => `${RUN}/look-in:${number}`

const replaced = <Thing extends { readonly id: string }>(
  things: readonly Thing[],
  id: string,
  change: Partial<Thing>,
): readonly Thing[] => things.map((thing) => (thing.id === id ? { ...thing, ...change } : thing))
const plan = (change: Partial<Plan>): Spoilt => ({ plan: { ...handPlan, ...change } })
const task = (id: string, change: Partial<RunTask>): Spoilt => plan({ tasks: replaced(handPlan.tasks, id, change) })
const without = (id: string): Spoilt => plan({ tasks: handPlan.tasks.filter((one) => one.id !== id) })
const moved = (id: string, byMin: number): Spoilt =>
  task(id, { startMin: taskOf(id).startMin + byMin, endMin: taskOf(id).endMin + byMin })
const kilnTask = (id: string, change: Partial<KilnTask>): Spoilt =>
  plan({ kilnTasks: replaced(handPlan.kilnTasks, id, change) })
const run = (change: Partial<PlannedRun>, id = RUN): Spoilt => plan({ runs: replaced(handPlan.runs, id, change) })
const firing = (id: string, change: Partial<PlannedFiring>): Spoilt =>
  plan({ firings: replaced(handPlan.firings, id, change) })
const inStudio = (change: Partial<Studio>, spoilt: Spoilt = {}): Spoilt => ({
  ...spoilt,
  planningCase: { ...handCase, studio: { ...studio, ...change } },
})
const logged = (...entries: readonly Entry[]): PlanningCase => ({
  ...handCase,
  entries: [...handCase.entries, ...entries],
})
const inKiln = (change: Partial<Studio['kilns'][number]>): Spoilt =>
  inStudio({ kilns: [{ ...studio.kilns[0]!, ...change }] })
const ofRun = (change: Partial<PlannedRun>): PlannedRun => ({ ...handPlan.runs[0]!, ...change })
const sideDraped: readonly DesignStep[] = tray.steps.map((step) =>
  step.id === 'join' ? { ...step, kind: 'drape', mouldId: 'hump' } : step,
)
const away = (fromMin: number, toMin: number): Spoilt => ({
  planningCase: logged(anEntry('away', at(0, 7), { makerId: 'mara', fromMin, toMin })),
})
const secondFiring = (change: Partial<PlannedFiring>): Spoilt =>
  plan({ firings: [...handPlan.firings, { ...bisque, id: 'second', members: [], ...change }] })
const order = studio.orders[0]!
const promise = handPlan.promises[0]!

/** Without the second look-in more draws miss the join than a studio that is easily content is told. */
const hopeful = inStudio(
  { rules: { ...studio.rules, windowOdds: 0.5 } },
  plan({
    tasks: handPlan.tasks.filter(({ id }) => id !== lookIn(2)),
    runs: [
      { ...handPlan.runs[0]!, windowOdds: 1, waits: handPlan.runs[0]!.waits.filter((_, index) => index !== 2) },
      ...handPlan.runs.slice(1),
    ],
  }),
)

/** What is spoilt, by the check that must catch it. */
export const planted: readonly (readonly [check: string, what: string, spoilt: Spoilt])[] = [
  ['times and counts are whole numbers', 'half a minute', task(cut, { startMin: at(0, 9) + 0.5 })],
  ['times and counts are whole numbers', 'a time that is no number', run({ cutMin: Number.NaN })],
  ['times and counts are whole numbers', 'a task on no pieces', task(cut, { count: 0 })],
  ['times and counts are whole numbers', 'odds above one', run({ windowOdds: 1.2 })],
  ['every id names one thing', 'two tasks of one name', task(cut, { id: join })],
  ['every id names one thing', 'two runs of one name', run({ id: 'sealed' })],
  ['what is named exists', 'a maker nobody knows', task(cut, { makerId: 'nobody' })],
  ['what is named exists', 'a spot nobody knows', task(cut, { after: { cover: 'open', spotId: 'attic' } })],
  [
    'ware is laid under covers that the studio has',
    'a cover that the studio has not',
    task(cut, { after: { cover: 'damp cupboard', spotId: 'rack' } }),
  ],
  ['what is named exists', 'a step the design has not', task(join, { stepId: 'polish' })],
  ['what is named exists', 'a load of no run', firing('bisque', { members: [{ ...bisque.members[0]!, runId: null }] })],
  ['hands work within making hours', 'cutting at eight', moved(cut, -60)],
  ['hands work within making hours', 'a maker who is away after all', away(at(0, 9), at(0, 10))],
  [
    'hands work within making hours',
    'loading in the night',
    kilnTask('bisque/load', { startMin: at(14, 3), endMin: at(14, 4) }),
  ],
  ['look-ins fall when somebody looks in', 'a look-in at midnight', moved(lookIn(1), 130)],
  [
    'kilns are minded by somebody at home and awake',
    'nobody at home at the shut-off',
    away(bisque.shutOffMin - 60, bisque.shutOffMin + 60),
  ],
  ['one maker does one thing at a time', 'packing while finishing', moved(pack, -5)],
  ['work is done by those who may', 'joined by one who only cuts', task(join, { makerId: 'ben' })],
  ['work is done by those who may', 'fired by one who only cuts', kilnTask('bisque/start', { makerId: 'ben' })],
  [
    'nothing is planned in the past or beyond the horizon',
    'cut last week',
    task(cut, { startMin: at(-7, 9), endMin: at(-7, 9, 26) }),
  ],
  [
    'nothing is planned in the past or beyond the horizon',
    'packed after the horizon',
    { planningCase: { ...handCase, horizonMin: at(20) } },
  ],
  [
    'pins are kept',
    'pinned to another hour',
    inStudio({ pins: [aPin({ runId: RUN, stepId: 'join', startMin: at(1, 11) })] }),
  ],
  [
    'pins are kept',
    'pinned to another maker',
    inStudio({ pins: [aPin({ runId: RUN, startMin: at(1, 9, 30), makerId: 'ben' })] }, task(join, { pinned: true })),
  ],
  ['pins are kept', 'said to be pinned, but by nobody', task(join, { pinned: true })],
  ['steps take the time they take', 'a hurried join', task(join, { endMin: taskOf(join).endMin - 10 })],
  ['steps take the time they take', 'a look-in of an hour', task(lookIn(3), { endMin: taskOf(lookIn(3)).endMin + 60 })],
  ['pieces pass from step to step, and skip none', 'never joined', without(join)],
  ['pieces pass from step to step, and skip none', 'glazed in the kiln', moved(glazing, -3 * 1_440)],
  [
    'pieces pass from step to step, and skip none',
    'fired twice for bisque',
    secondFiring({ members: bisque.members, loadMin: bisque.loadMin + 9 * 1_440 }),
  ],
  [
    'pieces pass from step to step, and skip none',
    'finished before it was fired',
    plan({ firings: [bisque], kilnTasks: handPlan.kilnTasks.filter(({ firingId }) => firingId === 'bisque') }),
  ],
  [
    'pieces pass from step to step, and skip none',
    'a step done before',
    plan({ tasks: [...handPlan.tasks, { ...taskOf(join), id: 'again', runId: 'bisque', count: 3 }] }),
  ],
  [
    'a piece is fired and finished with the glaze it was given',
    'packed in another glaze',
    task(pack, { glazeId: null }),
  ],
  [
    'glaze is dry before its firing',
    'loaded the hour it was glazed',
    firing('glaze', { loadMin: taskOf(glazing).endMin }),
  ],
  [
    'a run is cut in one go, and is no larger than its design allows',
    'drying before it is cut',
    run({ cutMin: at(0, 9) }),
  ],
  [
    'a run is cut in one go, and is no larger than its design allows',
    'larger than allowed',
    inStudio({ designs: [{ ...tray, mostPerRun: 1 }] }),
  ],
  [
    'there are moulds enough',
    'two pieces on one mould',
    inStudio({ designs: [{ ...tray, steps: sideDraped }], moulds: [aMould({ count: 1 })] }),
  ],
  ['what waits as clay lies on boards where it waits', 'no board', run({ boards: [] })],
  [
    'what waits as clay lies on boards where it waits',
    'a board given up too early',
    run({ boards: [{ ...handPlan.runs[0]!.boards[0]!, toMin: at(5) }] }),
  ],
  ['there is room on every spot', 'a rack of one board', inStudio({ spots: [{ ...studio.spots[0]!, boardCount: 1 }] })],
  ['there are ware boards enough', 'one board in all', inStudio({ wareBoardCount: 1 })],
  [
    'covers change only when somebody is there',
    'opened by nobody',
    run({ waits: [...handPlan.runs[0]!.waits.slice(0, -1), { fromMin: at(3, 3), cover: 'open', spotId: 'rack' }] }),
  ],
  [
    'covers change only when somebody is there',
    'a cover that is not told',
    run({ waits: handPlan.runs[0]!.waits.slice(0, -1) }),
  ],
  [
    'covers change only when somebody is there',
    'another past',
    run({ waits: [{ fromMin: at(-1, 12), cover: 'open', spotId: 'rack' }] }, 'sealed'),
  ],
  [
    'seams even out under a close cover, long enough and not too long',
    'too short',
    inStudio({ designs: [{ ...tray, evenOutHours: { least: 48, most: 96 } }] }),
  ],
  [
    'seams even out under a close cover, long enough and not too long',
    'too long',
    inStudio({ designs: [{ ...tray, evenOutHours: { least: 12, most: 20 } }] }),
  ],
  [
    'ware dries slowly before it stands open',
    'opened too soon',
    inStudio({ designs: [{ ...tray, slowDryHours: 48 }] }),
  ],
  ['windows hold over the whole chain of a run', 'joined on the evening of its cut', moved(join, -22 * 60)],
  ['windows hold over the whole chain of a run', 'left open overnight', task(lookIn(1), { after: null })],
  ['windows hold over the whole chain of a run', 'odds that are none', hopeful],
  ['a step stands inside the window that is told for it', 'no window told', task(join, { window: null })],
  [
    'a step stands inside the window that is told for it',
    'outside it',
    task(join, { window: { ...taskOf(join).window!, closeMin: at(1, 10) } }),
  ],
  [
    'ware is dry before the bisque, or candled for its doubt',
    'loaded when it was opened',
    firing('bisque', { loadMin: at(3, 11) }),
  ],
  ['a kiln holds one load at a time', 'two loads', secondFiring({})],
  [
    'no more kilns run at once than their supply bears',
    'two kilns on one supply',
    inStudio({ kilns: [...studio.kilns, aKiln({ id: 'other' })] }, secondFiring({ kilnId: 'other' })),
  ],
  [
    'firings take the time they take',
    'shut off an hour early',
    firing('bisque', { shutOffMin: bisque.shutOffMin - 60 }),
  ],
  ['firings take the time they take', 'opened hot', firing('glaze', { openMin: glaze.openMin - 120 })],
  ['firings take the time they take', 'unloaded hot', firing('glaze', { unloadMin: glaze.openMin + 60 })],
  ['firings take the time they take', 'lit while it is loaded', firing('glaze', { startMin: glaze.loadMin + 10 })],
  ['firings take the time they take', 'candled, but not for longer', firing('bisque', { candleHours: 8 })],
  [
    'one schedule suits all that is in a load',
    'by nobody’s schedule',
    inStudio(
      { firingSchedules: [...studio.firingSchedules, aGlazeSchedule({ id: 'mine' })] },
      firing('glaze', { scheduleId: 'mine' }),
    ),
  ],
  [
    'one schedule suits all that is in a load',
    'of two cones',
    inStudio(
      {
        designs: [tray, aDesign({ id: 'low', glazeScheduleId: 'low' })],
        firingSchedules: [...studio.firingSchedules, aGlazeSchedule({ id: 'low', cone: '04' })],
      },
      plan({
        runs: [
          ...handPlan.runs,
          ofRun({ id: 'new:low:1', designId: 'low', cutMin: null, waits: [], boards: [], allotments: [] }),
        ],
        firings: [
          bisque,
          { ...glaze, members: [...glaze.members, { ...glaze.members[0]!, runId: 'new:low:1', designId: 'low' }] },
        ],
      }),
    ),
  ],
  ['a kiln fires only what it can', 'bisque in a glaze kiln', inKiln({ fires: ['glaze'] })],
  [
    'a kiln fires only what it can',
    'hotter than its plate allows',
    inKiln({ firing: { ...studio.kilns[0]!.firing, maxTempC: 1_100 } }),
  ],
  [
    'somebody is there at every turn of a firing',
    'nobody at the shut-off',
    plan({ kilnTasks: handPlan.kilnTasks.filter(({ id }) => id !== 'bisque/shut-off') }),
  ],
  [
    'somebody is there at every turn of a firing',
    'an hour late to open',
    kilnTask('glaze/open', { startMin: glaze.openMin + 60, endMin: glaze.openMin + 65 }),
  ],
  [
    'a manual kiln is turned up when it has to be',
    'nobody turns it up',
    inKiln({ firing: { ...studio.kilns[0]!.firing, switchUpsMin: [120] } }),
  ],
  ['a load stands as drawn', 'no load drawn', firing('bisque', { load: null })],
  [
    'a load stands as drawn',
    'a piece that is not drawn',
    firing('bisque', {
      load: {
        ...bisque.load!,
        levels: bisque.load!.levels.map((level) => ({ ...level, placements: level.placements.slice(1) })),
      },
    }),
  ],
  [
    'a load stands as drawn',
    'pieces in one another',
    firing('glaze', {
      load: {
        ...glaze.load!,
        levels: glaze.load!.levels.map((level) => ({
          ...level,
          placements: level.placements.map((placement) => ({ ...placement, xMm: 0, yMm: 0 })),
        })),
      },
    }),
  ],
  [
    'clay and glaze suit the cone they are fired to',
    'a glaze that would run',
    inStudio({ glazes: [{ ...studio.glazes[0]!, coneLow: '04', coneHigh: '02' }] }),
  ],
  [
    'clay and glaze suit the cone they are fired to',
    'a clay that would slump',
    inStudio({ clays: [{ ...studio.clays[0]!, coneLow: '04', coneHigh: '02' }] }),
  ],
  ['there is clay for what is cut', 'a pound of clay', inStudio({ clays: [{ ...studio.clays[0]!, onHandKg: 0.4 }] })],
  [
    'there is glaze for what is glazed',
    'a cup of glaze',
    inStudio({ glazes: [{ ...studio.glazes[0]!, onHandL: 0.2 }] }),
  ],
  [
    'bisque taken from the shelf stands there',
    'more than there is',
    inStudio(
      { stock: [aStockItem({ stage: 'bisque', glazeId: null, count: 1 })] },
      plan({
        runs: [...handPlan.runs, ofRun({ id: 'shelf:tray', cutMin: null, waits: [], boards: [], allotments: [] })],
      }),
    ),
  ],
  [
    'runs under way are as the logbook has them',
    'one forgotten',
    plan({ runs: handPlan.runs.filter(({ id }) => id !== 'bisque') }),
  ],
  ['runs under way are as the logbook has them', 'a piece made up', run({ count: 4 }, 'bisque')],
  ['runs under way are as the logbook has them', 'cut at another time', run({ cutMin: at(-2, 12) }, 'sealed')],
  ['runs under way are as the logbook has them', 'under way, but not logged', run({ underWay: true })],
  ['firings under way are as the logbook has them', 'under way, but not logged', firing('bisque', { underWay: true })],
  [
    'firings under way are as the logbook has them',
    'loaded over what is in it',
    {
      planningCase: logged(
        anEntry('loaded', at(0, 7), {
          firingId: 'now',
          kilnId: 'round-kiln',
          firingKind: 'glaze',
          scheduleId: 'glaze-6',
          members: [{ runId: 'bisque', designId: 'tray', glazeId: 'white', count: 3 }],
        }),
      ),
    },
  ],
  [
    'a load takes no more of a run than there is, and nothing else for it',
    'a third of two',
    firing('bisque', { members: [{ ...bisque.members[0]!, count: 3 }] }),
  ],
  [
    'a run is allotted to who asked for it, and not twice',
    'more than it has',
    run({ allotments: [{ ...handPlan.runs[0]!.allotments[0]!, count: 3 }] }),
  ],
  [
    'a run is allotted to who asked for it, and not twice',
    'in another glaze',
    run({ allotments: [{ ...handPlan.runs[0]!.allotments[0]!, glazeId: null }] }),
  ],
  [
    'every piece ordered is placed or left out by name',
    'one piece forgotten',
    plan({ promises: [{ ...promise, onTime: 1 }] }),
  ],
  [
    'every piece ordered is placed or left out by name',
    'a line forgotten',
    inStudio({ orders: [order, anOrder({ id: 'later', lines: [anOrderLine({ id: 'more' })] })] }),
  ],
  [
    'every piece ordered is placed or left out by name',
    'delivered already',
    {
      planningCase: {
        ...logged(anEntry('delivered', at(0, 7), { orderId: 'order', designId: 'tray', glazeId: 'white', count: 1 })),
        studio: { ...studio, stock: [aStockItem()] },
      },
    },
  ],
  [
    'what is said to be on time is packed by then',
    'packed a week late',
    inStudio({ orders: [{ ...order, packedByMin: at(21) }] }),
  ],
  [
    'no piece is promised twice',
    'from an empty shelf',
    run({ allotments: [{ ...handPlan.runs[0]!.allotments[0]!, count: 1 }] }),
  ],
]
