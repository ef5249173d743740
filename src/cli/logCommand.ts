/** `log KIND RUN …`: one thing that happened; or entries as JSON on standard input with `log -`. */
import { randomUUID } from 'node:crypto'
import { hostname } from 'node:os'
import { Refusal } from '#app/refusal.ts'
import { type EntryRecord, entryRecord } from '#contract/entry.ts'
import { problemsOf } from '#contract/problems.ts'
import { feltVerdicts, lossCauses } from '#core/logbook/entry.ts'
import { coverKinds } from '#core/drying/covers.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import { momentText } from '#words/times.ts'
import { type Call, exitCodes, momentOf, needed, type Options, said, wholeOf } from './call.ts'
import { withSource } from './source.ts'

export async function logCommand(call: Call): Promise<number> {
  const { words, options, output } = call
  const entries = words[1] === '-' ? entriesFrom(await call.input()) : [entryFrom(words.slice(1), options)]
  await withSource(options, (source) => source.log(entries))
  if (options.json) output.out(JSON.stringify({ ids: entries.map(({ id }) => id) }))
  else {
    const context = { zone: 'UTC', locale: 'en-GB', units: options.units, nowMin: options.nowMin }
    const [first] = entries
    const what =
      entries.length === 1
        ? `“${first!.kind}”, ${momentText(Math.floor(Date.parse(first!.happenedAt) / 60_000), context)} UTC`
        : `${entries.length} entries`
    output.out(`In the logbook: ${what}. Take it back with: log corrected ${first!.id}`)
  }
  return exitCodes.done
}

function entriesFrom(text: string): EntryRecord[] {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    throw new Refusal('invalid', 'What came in is not JSON: one entry, or a list of entries.')
  }
  return (Array.isArray(value) ? value : [value]).map(checked)
}

function checked(value: unknown): EntryRecord {
  const outcome = entryRecord.safeParse(value)
  if (outcome.success) return outcome.data as EntryRecord
  const fields = problemsOf(outcome.error)
  throw new Refusal('invalid', fields[0]?.message ?? 'This is not an entry.', fields)
}

/** Words to an entry: the kinds that are said by hand. */
function entryFrom([kind, run, more]: readonly string[], options: Options): EntryRecord {
  const runId = () => needed(run, 'The run')
  const count = () => wholeOf('--count', needed(said(options, 'count'), 'The count (--count N)'), 1, 10_000)
  const spotId = () => needed(said(options, 'spot'), 'The spot (--spot)')
  const cover = () => oneOf('The cover (--cover)', said(options, 'cover'), coverKinds)
  const stepId = () => needed(said(options, 'step'), 'The step (--step)')
  const step = () => ({ runId: runId(), count: count(), stepId: stepId(), cover: cover(), spotId: spotId() })
  const bodies: Readonly<Record<string, () => object>> = {
    cut: () => ({
      runId: runId(),
      designId: needed(said(options, 'design'), 'The design (--design)'),
      count: count(),
      cover: cover(),
      spotId: spotId(),
    }),
    joined: step,
    refined: step,
    decorated: step,
    covered: () => ({ runId: runId(), cover: oneOf('The cover', more ?? said(options, 'cover'), coverKinds) }),
    moved: () => ({ runId: runId(), spotId: more ?? spotId() }),
    felt: () => ({
      runId: runId(),
      stepId: said(options, 'step') ?? null,
      verdict: oneOf('How it felt', more, feltVerdicts),
    }),
    lost: () => ({
      runId: runId(),
      count: count(),
      cause: oneOf('The cause (--cause)', said(options, 'cause'), lossCauses),
    }),
    second: () => ({ runId: runId(), count: count() }),
    finished: () => ({ runId: runId(), count: count() }),
    glazed: () => ({
      runId: runId(),
      designId: needed(said(options, 'design'), 'The design (--design)'),
      intoRunId: said(options, 'into') ?? randomUUID(),
      glazeId: needed(said(options, 'glaze'), 'The glaze (--glaze)'),
      count: count(),
    }),
    opened: () => ({ firingId: needed(run, 'The firing') }),
    fired: () => ({ firingId: needed(run, 'The firing'), candleHours: Number(more ?? 0) }),
    corrected: () => ({ entryId: needed(run, 'The entry') }),
  }
  const body = bodies[needed(kind, 'What happened')]
  if (!body)
    throw new Refusal(
      'invalid',
      `“${kind}” is not said so; there are: ${Object.keys(bodies).join(', ')}. Others go in as JSON with \`log -\`.`,
    )
  return checked({
    id: randomUUID(),
    version: 1,
    kind,
    ...when(said(options, 'at'), options.nowMin),
    deviceId: `command-line-${hostname().replaceAll(/[^A-Za-z0-9-]/g, '-')}`,
    deviceSeq: options.nowMin,
    by: said(options, 'by') ?? null,
    body: body(),
    hint: null,
  })
}

/** Rough times are normal: the middle of the span, and how far the truth may lie from it. Hours before now. */
const roughTimes: Readonly<Record<string, { readonly agoH: number; readonly roughH: number }>> = {
  now: { agoH: 0, roughH: 0 },
  'just now': { agoH: 0.25, roughH: 0.25 },
  'an hour ago': { agoH: 1, roughH: 0.5 },
  'this morning': { agoH: 4, roughH: 3 },
  'this afternoon': { agoH: 2, roughH: 2 },
  yesterday: { agoH: 24, roughH: 8 },
  'last night': { agoH: 11, roughH: 3 },
}

function when(text: string | undefined, nowMin: number): { happenedAt: string; roughMin: number } {
  const rough = roughTimes[text ?? 'now']
  const minute = rough ? nowMin - rough.agoH * MIN_PER_HOUR : momentOf(text!)
  return {
    happenedAt: new Date(minute * 60_000).toISOString(),
    roughMin: Math.round((rough?.roughH ?? 0) * MIN_PER_HOUR),
  }
}

function oneOf<Kind extends string>(what: string, word: string | undefined, kinds: readonly Kind[]): Kind {
  const found = kinds.find((kind) => kind === word)
  if (!found)
    throw new Refusal('invalid', `${what} must be one of: ${kinds.join(', ')}${word ? `; not “${word}”` : ''}.`)
  return found
}
