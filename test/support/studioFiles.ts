/** Studio files for tests: one that is full, one that is empty, and copies that may be spoilt. */
import { STUDIO_FORMAT, STUDIO_VERSION } from '#contract/studioFields.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { exampleStudioFile } from '#db/seed/exampleStudio.ts'

/** The example studio as of Monday 2 March 2026. */
export const aFullStudioFile = (): StudioFile => exampleStudioFile('2026-03-02')

/** A studio in which there is nothing yet. */
export function anEmptyStudioFile(): StudioFile {
  const { studio } = aFullStudioFile()
  return {
    format: STUDIO_FORMAT,
    version: STUDIO_VERSION,
    asOf: '2026-03-02T07:00:00.000Z',
    studio,
    makers: [],
    hours: [],
    busyTimes: [],
    spots: [],
    clays: [],
    glazes: [],
    supplies: [],
    kilns: [],
    moulds: [],
    firingSchedules: [],
    designs: [],
    orders: [],
    stock: [],
    pins: [],
    airReadings: [],
    entries: [],
  }
}

type Key = string | number

/** The text of the file with the value at `path` put there, or taken away when `value` is undefined. */
export function spoilt(file: StudioFile, path: readonly Key[], value: unknown): string {
  const copy = JSON.parse(JSON.stringify(file)) as Record<Key, unknown>
  let holder = copy
  for (const key of path.slice(0, -1)) holder = holder[key] as Record<Key, unknown>
  const last = path.at(-1)!
  if (value === undefined) delete holder[last]
  // Defined, not assigned: `__proto__` must become a key like any other.
  else Object.defineProperty(holder, last, { value, enumerable: true, configurable: true, writable: true })
  return JSON.stringify(copy)
}
