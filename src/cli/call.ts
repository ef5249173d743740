/** One call of the command line: what was said, and where answers go. */
import { parseArgs } from 'node:util'
import { minuteAt } from '#app/calendar/zone.ts'
import { Refusal } from '#app/refusal.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import type { Minute } from '#core/time.ts'

export type Output = { readonly out: (line: string) => void; readonly err: (line: string) => void }

export type Options = {
  readonly json: boolean
  /** The moment to answer for: `--now` by the studio's clock, or this machine's. */
  readonly nowIn: (zone: string) => Minute
  readonly seed: number
  readonly effort: number
  readonly folder: string
  readonly databaseUrl: string | undefined
  readonly units: 'metric' | 'us'
  /** Everything else that was said with `--`. */
  readonly said: Readonly<Record<string, string | boolean | readonly string[] | undefined>>
}

export type Call = {
  readonly words: readonly string[]
  readonly options: Options
  readonly output: Output
  readonly input: () => Promise<string>
  readonly exampleAt: (nowIn: Options['nowIn']) => StudioFile
}

/** 0 done, 1 a fault (or a plan with a breach), 2 bad input, 3 the folder is in use. */
export const exitCodes = { done: 0, fault: 1, badInput: 2, inUse: 3 } as const

type Env = Readonly<Record<string, string | undefined>>

/**
 * Reads the words after the program's name.
 * @throws Refusal `invalid` for an option that does not exist or makes no sense
 */
export function readCall(
  argv: readonly string[],
  env: Env,
  clockMs: number,
): { readonly words: string[]; readonly options: Options } {
  const { values, positionals } = parsed(argv)
  return {
    words: positionals,
    options: {
      json: values.json === true,
      nowIn: nowOf(values.now, clockMs),
      seed: wholeOf('--seed', values.seed ?? '1', 0, 4_294_967_295),
      effort: wholeOf('--effort', values.effort ?? '0', 0, 1_000),
      folder: values.folder ?? (env['WAREBOARD_FOLDER'] || './data'),
      databaseUrl: env['DATABASE_URL'],
      units: oneOf('--units', values.units ?? 'metric', ['metric', 'us']),
      said: values,
    },
  }
}

function parsed(argv: readonly string[]) {
  try {
    return parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: {
        json: { type: 'boolean' },
        now: { type: 'string' },
        seed: { type: 'string' },
        effort: { type: 'string' },
        folder: { type: 'string' },
        units: { type: 'string' },
        replace: { type: 'boolean' },
        outdoor: { type: 'boolean' },
        'set-point': { type: 'string' },
        spot: { type: 'string' },
        glaze: { type: 'string' },
        design: { type: 'string' },
        count: { type: 'string' },
        days: { type: 'string' },
        cover: { type: 'string' },
        step: { type: 'string' },
        by: { type: 'string' },
        at: { type: 'string', multiple: true },
        thickness: { type: 'string' },
        clay: { type: 'string' },
        cause: { type: 'string' },
        into: { type: 'string' },
        help: { type: 'boolean', short: 'h' },
      },
    })
  } catch (error) {
    throw new Refusal('invalid', `${(error as Error).message.split(/\.\s|\n/)[0]}. \`help\` lists what there is.`)
  }
}

function nowOf(text: string | undefined, clockMs: number): Options['nowIn'] {
  if (text === undefined) return () => Math.floor(clockMs / 60_000)
  momentOf(text, 'UTC') // refused before anything is opened
  return (zone) => momentOf(text, zone)
}

const written = /^(\d{4}-\d\d-\d\d)(?:[T ](\d\d:\d\d)(?::\d\d(?:\.\d+)?)?(Z|[+-]\d\d:?\d\d)?)?$/

/**
 * A moment said as ISO date and time. Without a zone of its own it is read off the studio's wall, wherever this machine
 * stands; a date alone is that day's midnight.
 */
export function momentOf(text: string, zone: string): Minute {
  const [, date, time = '00:00', offset] = written.exec(text) ?? []
  const minute =
    date === undefined ? Number.NaN : offset ? Date.parse(text.replace(' ', 'T')) / 60_000 : minuteAt(date, time, zone)
  if (!(minute >= FIRST_MIN && minute < LAST_MIN))
    throw new Refusal(
      'invalid',
      `“${text}” is not a moment; say it by the studio’s clock, like 2026-11-25T08:00, or in UTC, like 2026-11-25T08:00:00Z.`,
    )
  return Math.floor(minute)
}

/** No studio has a logbook from before 1970, and calendars are not laid out for ever. */
const FIRST_MIN = 0
const LAST_MIN = Date.parse('2200-01-01T00:00:00Z') / 60_000

export function wholeOf(what: string, text: string, least: number, most: number): number {
  const value = Number(text)
  if (!Number.isInteger(value) || value < least || value > most) {
    throw new Refusal('invalid', `${what} must be a whole number from ${least} to ${most}, not “${text}”.`)
  }
  return value
}

export function numberOf(what: string, text: string, least: number, most: number, unit: string): number {
  const value = Number(text)
  if (!Number.isFinite(value) || value < least || value > most) {
    throw new Refusal('invalid', `${what} must be between ${least} and ${most} ${unit}, not “${text}”.`)
  }
  return value
}

/** One of a closed list of words. */
export function oneOf<Kind extends string>(what: string, word: string | undefined, kinds: readonly Kind[]): Kind {
  const found = kinds.find((kind) => kind === word)
  if (!found)
    throw new Refusal('invalid', `${what} must be one of: ${kinds.join(', ')}${word ? `; not “${word}”` : ''}.`)
  return found
}

/** A word that has to be there. */
export function needed(word: string | undefined, what: string): string {
  if (word === undefined || word === '') throw new Refusal('invalid', `${what} is missing. \`help\` says how it goes.`)
  return word
}

/** An option said once. */
export function said({ said: values }: Options, name: string): string | undefined {
  const value = values[name]
  return typeof value === 'string' ? value : Array.isArray(value) ? value[0] : undefined
}
