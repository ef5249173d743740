import { problemsOf } from '#contract/problems.ts'
import { STUDIO_FORMAT, STUDIO_VERSION } from '#contract/studioFields.ts'
import type { StudioFile } from '#contract/studioFields.ts'
import { studioFile } from '#contract/studioFile.ts'
import { Refusal } from '../refusal.ts'
import { jsonFault } from './jsonFault.ts'

/** Characters of a studio file at most: some ten thousand log entries take five million. */
export const MOST_CHARACTERS = 200_000_000
/** Problems told at once; a file of the wrong kind would have one on every line. */
const MOST_PROBLEMS = 50

/**
 * A studio from its file, every field and every reference checked.
 * @throws Refusal `invalid` with the places at fault, written as `designs[2].parts[0].thicknessMm`, or `too-large`
 */
export function readStudioFile(text: string): StudioFile {
  if (text.length > MOST_CHARACTERS) throw new Refusal('too-large', 'The file is too large to be a studio.')
  const content = parsed(text.replace(/^\uFEFF/, ''))
  refuseOtherFormats(content)
  const result = studioFile.safeParse(content)
  if (result.success) return result.data
  const problems = problemsOf(result.error)
  const first = problems[0]!
  const others = problems.length > 1 ? `, and ${problems.length - 1} more` : ''
  throw new Refusal(
    'invalid',
    `The studio file cannot be read: ${first.path ? `${first.path}: ` : ''}${first.message}${others}.`,
    problems.slice(0, MOST_PROBLEMS),
  )
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch (error) {
    const fault = jsonFault(text)
    if (!fault) throw error
    const place = `line ${fault.line}, column ${fault.column}`
    const message = fault.endsTooEarly
      ? `The file ends too early, at ${place}: it was cut off. Export or copy it again.`
      : `The file is not JSON: something does not belong at ${place}.`
    throw new Refusal('invalid', message, [{ path: place, message }])
  }
}

/** Said on its own, since every other complaint about such a file would only confuse. */
function refuseOtherFormats(content: unknown): void {
  const { format, version } = (typeof content === 'object' && content !== null ? content : {}) as Record<
    string,
    unknown
  >
  if (format !== STUDIO_FORMAT) {
    const message = `This is not a studio file: it must begin with "format": "${STUDIO_FORMAT}".`
    throw new Refusal('invalid', message, [{ path: 'format', message }])
  }
  if (typeof version === 'number' && version > STUDIO_VERSION) {
    const message = `The file is of version ${version}, and this program reads version ${STUDIO_VERSION}; update the program.`
    throw new Refusal('invalid', message, [{ path: 'version', message }])
  }
}
