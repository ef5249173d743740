/**
 * The kinds of field of which every record is made. Each knows its own sentence: what it is, what it may be, in which
 * unit, and what was given instead; a person who wrote the file by hand should need no other manual.
 */
import { z } from 'zod'

type Fault = { readonly input?: unknown; readonly code?: string }

/** What was given, as it stands in the file, short enough to be quoted. */
function quoted(input: unknown): string {
  if (typeof input === 'number' || typeof input === 'boolean' || input === null) return String(input)
  if (typeof input === 'string') return input.length > 40 ? `“${input.slice(0, 40)}…”` : `“${input}”`
  return Array.isArray(input) ? `a list of ${input.length}` : 'an object'
}

/** The sentence of a field: missing, or not what it must be. */
export const mustBe =
  (what: string, rule: string) =>
  ({ input }: Fault): string =>
    input === undefined || input === ''
      ? `${what} is missing; it must be ${rule}`
      : `${what} must be ${rule}, not ${quoted(input)}`

/** A measured number. `unit` is said in messages as it stands; empty for none. */
export function quantity(what: string, unit: string, least: number, most: number) {
  const error = mustBe(what, `between ${least} and ${most}${unit && ` ${unit}`}`)
  return z
    .number({ error })
    .min(least, { error })
    .max(most, { error })
    .meta({ description: unit ? `${what}, ${unit}` : what })
}

/** A counted number. */
export function whole(what: string, unit: string, least: number, most: number) {
  const error = mustBe(what, `a whole number between ${least} and ${most}${unit && ` ${unit}`}`)
  return z
    .int({ error })
    .min(least, { error })
    .max(most, { error })
    .meta({ description: unit ? `${what}, ${unit}` : what })
}

/** A share of something, as a fraction. */
export function share(what: string, least = 0, most = 1) {
  const error = mustBe(what, `between ${least} and ${most} (30 % is 0.3)`)
  return z
    .number({ error })
    .min(least, { error })
    .max(most, { error })
    .meta({ description: `${what}, as a fraction` })
}

/** Neither control characters, which no database keeps all of, nor halves of a character, which no file can hold. */
const oneLine = /^[^\p{Cc}\p{Cs}]*$/u

/** One line of text that a person reads; spaces around it do not count. */
export function words(what: string, most = 120) {
  const error = mustBe(what, `one line of 1 to ${most} characters`)
  return z
    .string({ error })
    .trim()
    .min(1, { error })
    .max(most, { error })
    .regex(oneLine, { error })
    .meta({ description: what })
}

/** A name for the machine: made by whoever made the thing, never shown. Parts of runs have long ones. */
export function id(what = 'The id') {
  const error = mustBe(what, '1 to 400 characters without spaces')
  return z.string({ error }).regex(/^[^\s\p{C}]{1,400}$/u, { error })
}

/** One of a closed list of words. */
export function oneOf<const Word extends string>(what: string, allowed: readonly [Word, ...Word[]] | readonly Word[]) {
  return z.enum(allowed as readonly [Word, ...Word[]], { error: mustBe(what, `one of: ${allowed.join(', ')}`) })
}

export function yesNo(what: string) {
  return z.boolean({ error: mustBe(what, 'true or false') }).meta({ description: what })
}

/** @param what the members, in the plural: "makers" */
export function listOf<Member extends z.ZodType>(what: string, member: Member, least = 0, most = 10_000) {
  const error = mustBe(
    `The list of ${what}`,
    least === 0 ? `a list of at most ${most}` : `a list of ${least} to ${most}`,
  )
  return z.array(member, { error }).min(least, { error }).max(most, { error })
}

/** A thing with exactly these fields: a field that is not known is refused, since it is most often a slip of the pen. */
export function record<Shape extends z.ZodRawShape>(what: string, shape: Shape) {
  return z.strictObject(shape, {
    error: (fault) =>
      fault.code === 'unrecognized_keys'
        ? `There is no such field here; the fields of ${what} are: ${Object.keys(shape).join(', ')}`
        : fault.input === undefined
          ? `Here ${what} is missing`
          : `Here must stand ${what}, as an object with the fields: ${Object.keys(shape).join(', ')}`,
  })
}

/** One of several kinds of thing, told apart by its field `by`. */
export function kindsOf<
  By extends string,
  Options extends readonly [z.core.$ZodTypeDiscriminable, ...z.core.$ZodTypeDiscriminable[]],
>(what: string, by: By, allowed: readonly string[], options: Options) {
  return z.discriminatedUnion(by, options, {
    error: ({ input }) =>
      input === undefined
        ? `Here ${what} is missing`
        : `${what} needs the field “${by}” with one of: ${allowed.join(', ')}`,
  })
}
