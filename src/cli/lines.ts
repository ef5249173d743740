/** What is said, in lines that fit a terminal and a sheet of paper. */

const WIDTH = 100

/**
 * A sentence in lines of at most a hundred characters, set in by `indent`, the later ones by two more. Odds stay whole.
 * @param lead what the first line begins with, as it stands; the later ones are set in as far
 */
export function folded(sentence: string, indent: number, lead = ''): string[] {
  const laterIndent = indent + (lead === '' ? 2 : lead.length + 1)
  const lines: string[] = lead === '' ? [] : [`${' '.repeat(indent)}${lead}`]
  for (const word of sentence.match(/\d+ in \d+\S*|\S+/g) ?? []) {
    const last = lines.at(-1)
    if (last !== undefined && last.length + 1 + word.length <= WIDTH) lines[lines.length - 1] = `${last} ${word}`
    else lines.push(`${' '.repeat(last === undefined ? indent : laterIndent)}${word}`)
  }
  return lines
}
