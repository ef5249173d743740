import type { Happenings } from '#app/happenings.ts'
import type { Planner } from '#app/plan/planner.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import type { Minute } from '#core/time.ts'
import type { Db } from '#store/db.ts'
import { logPositionOf } from '#store/logEntries.ts'
import type { LogLine } from './requestLog.ts'

/** What the api is given besides the database; it looks up nothing by itself, not even the time. */
export type ApiParts = {
  readonly planner: Planner
  readonly happenings: Happenings
  readonly log: (line: LogLine) => void
  /** Milliseconds since 1970, UTC. */
  readonly clockMs: () => number
  /** The names by which this server may be called, without port. */
  readonly hostNames: readonly string[]
  /** Writes a backup before something large is replaced; null where others see to that. */
  readonly backUp: (() => Promise<string>) | null
  /** The example studio as of now. */
  readonly exampleNow: () => StudioFile
}

/** What a route works with. */
export type Desk = ApiParts & { readonly db: Db }

/** The moment as it stands on the wire. */
export const nowAt = ({ clockMs }: Desk): string => new Date(clockMs()).toISOString()

export const nowMin = ({ clockMs }: Desk): Minute => Math.floor(clockMs() / 60_000)

/** Something was written: screens are told, and the plan is to follow. */
export async function announce({ db, happenings, planner }: Desk, studioId: string): Promise<void> {
  const logPosition = await logPositionOf(db, studioId)
  if (logPosition !== undefined) happenings.tell(studioId, { kind: 'logged', logPosition })
  planner.ask(studioId)
}
