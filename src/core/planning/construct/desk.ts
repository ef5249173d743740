/** What one construction works on: the case, its calendars and counts as they fill up, and what has been placed so far. */
import type { AirOfSpot } from '#core/drying/types.ts'
import type { LogState } from '#core/logbook/state.ts'
import type { FiringKind, FiringTimes } from '#core/firing/types.ts'
import type { Design, Spot, Studio } from '#core/studio/studio.ts'
import type { Minute } from '#core/time.ts'
import type { KilnTask, LeftOut, PlannedFiring, PlannedRun, PlanningCase, RunTask } from '../plan.ts'
import type { SizeGoingIn } from '../facts/pieces.ts'
import type { Job } from '../jobs.ts'
import { book, copyOfDiary, type Diary, openDiary, type Slot } from './diary.ts'
import type { KilnBook } from './kilnSlots.ts'
import { copyOfRoom, emptyRoom, type Room, take } from './room.ts'
import type { Ware, Wares } from './wares.ts'

/** How one construction leans; improvement tries others. All between 0 and 1 unless said. */
export type Leaning = {
  /** Share of the slack that ware may wait for a fuller kiln. */
  readonly patience: Readonly<{ bisque: number; glaze: number }>
  /** Days before its date at which a run is begun at the soonest; sooner only if that cannot be kept. */
  readonly leadDays: number
  /** Jobs placed before all others, in this order; the rest follow by urgency. */
  readonly first: readonly string[]
  /** Orders whose ware is begun and fired as soon as it can be, whatever their date. */
  readonly soonOrderIds: readonly string[]
  /** Whether today and tomorrow stay as the base plan shows them. */
  readonly holds: boolean
}

/** The part of the case that all constructions share. */
export type Given = {
  readonly planningCase: PlanningCase
  readonly studio: Studio
  readonly state: LogState
  readonly airOfSpot: AirOfSpot
  readonly wares: Wares
  /** By kiln and schedule: how long a full firing takes; null where the kiln cannot. */
  readonly firingTimes: Map<string, FiringTimes | null>
  /** A design's pieces as they go into the kiln. */
  readonly sizeOf: (design: Design, kind: FiringKind) => SizeGoingIn
  readonly wareOf: (job: Job, spot: Spot) => Ware
  readonly jobs: readonly Job[]
  readonly designs: ReadonlyMap<string, Design>
  readonly nowMin: Minute
  readonly horizonMin: Minute
  /** Blank calendars, with the past and absences taken out. */
  readonly blank: {
    readonly diary: Diary
    readonly boards: Room
    readonly spots: ReadonlyMap<string, Room>
    readonly moulds: ReadonlyMap<string, Room>
    readonly kilns: KilnBook
  }
}

/** A chain of a run as placed, waiting for its firings. */
export type PlacedClay = {
  readonly job: Job
  readonly spotId: string
  readonly boardCount: number
  readonly cutMin: Minute | null
  readonly boardsFromMin: Minute
  /** Boards are kept for it until then, unless it is loaded sooner. */
  readonly boardsUntilMin: Minute
  readonly waits: PlannedRun['waits']
  readonly dryMin: Minute
  /** By draw: when dry at the thickest spot. */
  readonly dryByDrawMin: readonly number[]
  readonly windowOdds: number
}

export type Desk = {
  readonly given: Given
  readonly leaning: Leaning
  readonly diary: Diary
  readonly boards: Room
  readonly spots: ReadonlyMap<string, Room>
  readonly moulds: ReadonlyMap<string, Room>
  readonly kilns: KilnBook
  /** Clay spent by the runs placed so far, by clay. */
  readonly clayUses: Map<string, { readonly minute: Minute; readonly massKg: number }[]>
  readonly glazeUsedL: Map<string, number>
  readonly tasks: RunTask[]
  readonly kilnTasks: KilnTask[]
  readonly firings: PlannedFiring[]
  readonly clay: Map<string, PlacedClay>
  readonly leftOut: LeftOut[]
}

/** Calendars before anything is placed. */
export function blankCalendars(studio: Studio, state: LogState, nowMin: Minute): Given['blank'] {
  const rooms = (things: readonly { readonly id: string }[], capacityOf: (id: string) => number) =>
    new Map(things.map(({ id }) => [id, emptyRoom(capacityOf(id))]))
  return {
    diary: openDiary(studio.makers, state.away, nowMin, studio.rules.leastSessionMin),
    boards: emptyRoom(studio.wareBoardCount),
    spots: rooms(studio.spots, (id) => studio.spots.find((spot) => spot.id === id)!.boardCount),
    moulds: rooms(studio.moulds, (id) => studio.moulds.find((mould) => mould.id === id)!.count),
    kilns: {
      kilns: rooms(studio.kilns, () => 1),
      supplies: rooms(studio.supplies, (id) => studio.supplies.find((supply) => supply.id === id)!.kilnsAtOnce),
    },
  }
}

/** A fresh desk over copies of the blank calendars. */
export function freshDesk(given: Given, leaning: Leaning): Desk {
  const { blank } = given
  const copies = (rooms: ReadonlyMap<string, Room>) => new Map([...rooms].map(([id, room]) => [id, copyOfRoom(room)]))
  return {
    given,
    leaning,
    diary: copyOfDiary(blank.diary),
    boards: copyOfRoom(blank.boards),
    spots: copies(blank.spots),
    moulds: copies(blank.moulds),
    kilns: { kilns: copies(blank.kilns.kilns), supplies: copies(blank.kilns.supplies) },
    clayUses: new Map(),
    glazeUsedL: new Map(),
    tasks: [],
    kilnTasks: [],
    firings: [],
    clay: new Map(),
    leftOut: [],
  }
}

/** Books a maker's time and notes the task. */
export function addTask(desk: Desk, task: RunTask): void {
  book(desk.diary, task)
  desk.tasks.push(task)
}

/** Takes boards at a spot, and of all boards there are. */
export function takeBoards(desk: Desk, spotId: string, count: number, fromMin: Minute, toMin: Minute): void {
  take(desk.boards, count, fromMin, toMin)
  const spot = desk.spots.get(spotId)
  if (spot) take(spot, count, fromMin, toMin)
}

/** A task's name: what it is done to, which step, and which glaze where that matters. */
export const taskId = (runId: string, stepId: string, glazeId: string | null): string =>
  glazeId === null ? `${runId}/${stepId}` : `${runId}/${stepId}/${glazeId}`

/** A run's task from a slot. */
export const stepTask = (
  runId: string,
  stepId: string,
  slot: Slot,
  count: number,
  rest: Partial<Pick<RunTask, 'window' | 'after' | 'pinned' | 'parkWhen' | 'glazeId' | 'kind'>>,
): RunTask => ({
  id: taskId(runId, stepId, rest.glazeId ?? null),
  kind: rest.kind ?? 'step',
  runId,
  stepId,
  glazeId: rest.glazeId ?? null,
  makerId: slot.makerId,
  startMin: slot.startMin,
  endMin: slot.endMin,
  count,
  window: rest.window ?? null,
  after: rest.after ?? null,
  parkWhen: rest.parkWhen ?? null,
  pinned: rest.pinned ?? false,
})
