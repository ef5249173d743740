/** One call of the command line: what was said, and where answers go. */
import { parseArgs } from 'node:util'
import { Refusal } from '#app/refusal.ts'
import type { StudioFile } from '#contract/studioFields.ts'

export type Output = { readonly out: (line: string) => void; readonly err: (line: string) => void }

export type Options = {
  readonly json: boolean
  readonly nowMin: number
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
  readonly exampleAt: (nowMin: number) => StudioFile
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
      nowMin: values.now === undefined ? Math.floor(clockMs / 60_000) : momentOf(values.now),
      seed: wholeOf('--seed', values.seed ?? '1', 0, 4_294_967_295),
      effort: wholeOf('--effort', values.effort ?? '0', 0, 1_000),
      folder: values.folder ?? env['WAREBOARD_FOLDER'] ?? './data',
      databaseUrl: env['DATABASE_URL'],
      units: values.units === 'us' ? 'us' : 'metric',
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
    throw new Refusal('invalid', `${(error as Error).message.split('. ')[0]}. \`help\` lists what there is.`)
  }
}

/** A moment said as ISO date and time. */
export function momentOf(text: string): number {
  const ms = Date.parse(text)
  if (!Number.isFinite(ms)) throw new Refusal('invalid', `“${text}” is not a moment; say it like 2026-11-25T08:00:00Z.`)
  return Math.floor(ms / 60_000)
}

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
