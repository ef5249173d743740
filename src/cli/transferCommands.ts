/** `import`, `export`, `example`: a whole studio or an air log in, a studio out. */
import { writeFile } from 'node:fs/promises'
import { Refusal } from '#app/refusal.ts'
import { readStudioFile } from '#app/studio/readStudioFile.ts'
import { type Call, exitCodes, needed, numberOf, said } from './call.ts'
import { textOf, withNewSource, withSource } from './source.ts'

export async function importCommand(call: Call): Promise<number> {
  const [, what, file] = call.words
  if (what === 'studio') return importStudioFile(call, needed(file, 'The file'))
  if (what === 'air') return importAirFile(call, needed(file, 'The file'))
  throw new Refusal('invalid', 'Say what comes in: `import studio FILE` or `import air FILE --spot NAME`.')
}

async function importStudioFile({ options, output }: Call, file: string): Promise<number> {
  const studio = readStudioFile(await textOf(file))
  await withNewSource(options, (source) => source.importStudio(studio, options.said['replace'] === true))
  output.out(`${file} is in.`)
  return exitCodes.done
}

async function importAirFile({ options, output }: Call, file: string): Promise<number> {
  const spot = needed(said(options, 'spot'), 'The spot (--spot NAME)')
  const isOutdoor = options.said['outdoor'] === true
  const setPointC = isOutdoor
    ? numberOf(
        'The set point',
        needed(said(options, 'set-point'), 'The room’s set point (--set-point C)'),
        -10,
        40,
        '°C',
      )
    : 0
  const text = await textOf(file)
  const report = await withSource(options, (source) =>
    source.importAir({ text, spot, ...(isOutdoor ? { outdoor: { setPointC } } : {}) }),
  )
  const { readingCount, addedCount, temperatureUnit } = report
  if (options.json) output.out(JSON.stringify(report))
  else output.out(`${readingCount} readings in ${temperatureUnit} for “${spot}”, ${addedCount} of them new.`)
  return exitCodes.done
}

export async function exportCommand({ words, options, output }: Call): Promise<number> {
  const text = await withSource(options, (source) => source.exportText())
  if (words[1] === undefined) output.out(text.trimEnd())
  else {
    await writeFile(words[1], text)
    output.out(`The studio is in ${words[1]}.`)
  }
  return exitCodes.done
}

export async function exampleCommand({ options, output, exampleAt }: Call): Promise<number> {
  await withNewSource(options, (source) => source.example(exampleAt(options.nowIn)))
  output.out('The example studio is in, dated from today. Look at it with `plan` and `now`.')
  return exitCodes.done
}
