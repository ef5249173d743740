/** What is said, in lines that fit a terminal and a sheet of paper. */

const WIDTH = 100

/** A sentence in lines of at most a hundred characters, set in by `indent`, the later ones by two more. Odds stay whole. */
export function folded(sentence: string, indent: number): string[] {
  const lines: string[] = []
  for (const word of sentence.match(/\d+ in \d+\S*|\S+/g) ?? []) {
    const last = lines.at(-1)
    if (last !== undefined && last.length + 1 + word.length <= WIDTH) lines[lines.length - 1] = `${last} ${word}`
    else lines.push(`${' '.repeat(last === undefined ? indent : indent + 2)}${word}`)
  }
  return lines
}
