/** `log KIND RUN …`: one thing that happened; or entries as JSON on standard input with `log -`. */
import { randomUUID } from 'node:crypto'
import { hostname } from 'node:os'
import { Refusal } from '#app/refusal.ts'
import { readStudioFile } from '#app/studio/readStudioFile.ts'
import { type EntryRecord, entryRecord } from '#contract/entry.ts'
import { problemsOf } from '#contract/problems.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { feltVerdicts, lossCauses } from '#core/logbook/entry.ts'
import { coverKinds } from '#core/drying/covers.ts'
import { MIN_PER_HOUR } from '#core/units.ts'
import type { Context } from '#words/context.ts'
import { momentText } from '#words/times.ts'
import { type Call, exitCodes, momentOf, needed, numberOf, oneOf, type Options, said, wholeOf } from './call.ts'
import { named } from './named.ts'
import { contextOf } from './planning.ts'
import { runNamed } from './runs.ts'
import { withSource } from './source.ts'

export async function logCommand({ words, options, output, input }: Call): Promise<number> {
  const given = words[1] === '-' ? entriesFrom(await input()) : undefined
  const said = await withSource(options, async (source) => {
    const file = readStudioFile(await source.exportText())
    const entries = given ?? [entryFrom(words.slice(1), file, options)]
    await source.log(entries)
    return { entries, context: contextOf(file, options) }
  })
  if (options.json) output.out(JSON.stringify({ ids: said.entries.map(({ id }) => id) }))
  else output.out(receipt(said.entries, said.context))
  return exitCodes.done
}

function receipt(entries: readonly EntryRecord[], context: Context): string {
  const [first] = entries
  if (!first || entries.length > 1) return `In the logbook: ${entries.length} entries.`
  const run = 'runId' in first.body && typeof first.body.runId === 'string' ? ` of ${first.body.runId}` : ''
  const when = momentText(Math.floor(Date.parse(first.happenedAt) / 60_000), context)
  return `In the logbook: “${first.kind}”${run}, ${when}. Take it back with: log corrected ${first.id}`
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

/** Words to an entry: the kinds that are said by hand. Who types a name that there is not is told, not logged. */
function entryFrom([kind, run, more]: readonly string[], file: StudioFile, options: Options): EntryRecord {
  const runId = () => runNamed(file, needed(run, 'The run')).id
  const count = () => wholeOf('--count', needed(said(options, 'count'), 'The count (--count N)'), 1, 10_000)
  const spotNamed = (word: string) => named(file.spots, word, 'spot').id
  const spotId = () => spotNamed(needed(said(options, 'spot'), 'The spot (--spot)'))
  const designId = () => named(file.designs, needed(said(options, 'design'), 'The design (--design)'), 'design').id
  const maker = said(options, 'by')
  const cover = () => oneOf('The cover (--cover)', said(options, 'cover'), coverKinds)
  const stepNamed = (word: string) => named(stepsOf(file, runId()), word, 'step of it').id
  const stepId = () => stepNamed(needed(said(options, 'step'), 'The step (--step)'))
  const step = () => ({ runId: runId(), count: count(), stepId: stepId(), cover: cover(), spotId: spotId() })
  const nowMin = options.nowIn(file.studio.zone)
  const bodies: Readonly<Record<string, () => object>> = {
    cut: () => ({
      runId: needed(run, 'A name for the new run'),
      designId: designId(),
      count: count(),
      cover: cover(),
      spotId: spotId(),
    }),
    joined: step,
    refined: step,
    decorated: step,
    covered: () => ({ runId: runId(), cover: oneOf('The cover', more ?? said(options, 'cover'), coverKinds) }),
    moved: () => ({ runId: runId(), spotId: more === undefined ? spotId() : spotNamed(more) }),
    felt: () => ({
      runId: runId(),
      stepId: said(options, 'step') === undefined ? null : stepId(),
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
      designId: runNamed(file, needed(run, 'The run')).designId,
      intoRunId: said(options, 'into') ?? randomUUID(),
      glazeId: named(file.glazes, needed(said(options, 'glaze'), 'The glaze (--glaze)'), 'glaze').id,
      count: count(),
    }),
    opened: () => ({ firingId: needed(run, 'The firing') }),
    fired: () => ({
      firingId: needed(run, 'The firing'),
      candleHours: numberOf('The hours of candling', more ?? '0', 0, 72, 'h'),
    }),
    corrected: () => ({ entryId: knownEntry(file, needed(run, 'The entry')) }),
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
    ...when(said(options, 'at'), nowMin, file.studio.zone),
    deviceId: `command-line-${hostname().replaceAll(/[^A-Za-z0-9-]/g, '-')}`,
    deviceSeq: nowMin,
    by: maker === undefined ? null : named(file.makers, maker, 'maker').id,
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

function when(text: string | undefined, nowMin: number, zone: string): { happenedAt: string; roughMin: number } {
  const rough = roughTimes[text ?? 'now']
  const minute = rough ? nowMin - rough.agoH * MIN_PER_HOUR : momentOf(text!, zone)
  return {
    happenedAt: new Date(minute * 60_000).toISOString(),
    roughMin: Math.round((rough?.roughH ?? 0) * MIN_PER_HOUR),
  }
}

const stepsOf = (file: StudioFile, runId: string) =>
  file.designs.find(({ id }) => id === runNamed(file, runId).designId)?.steps ?? []

function knownEntry(file: StudioFile, entryId: string): string {
  if (file.entries.some(({ id }) => id === entryId)) return entryId
  throw new Refusal('not-found', `There is no entry “${entryId}” in the logbook. Its id was said when it went in.`)
}
