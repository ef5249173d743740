/** Random studios: each is read as it was written, its logbook adds up, and it lays out to a planning case. */
import { readStudioFile } from '#app/studio/readStudioFile.ts'
import { writeStudioFile } from '#app/studio/writeStudioFile.ts'
import { logStateOf } from '#core/logbook/fold.ts'
import { randomPlanningCase, randomStudioFile } from '../support/randomStudio.ts'

export function run(cases: number, seed: number): { failures: number; report: string } {
  const faults: string[] = []
  for (let index = 0; index < cases; index++) faults.push(...faultsOf(seed * 1_000_003 + index))
  return {
    failures: faults.length,
    report: [`${cases} studios, ${faults.length} at fault`, ...faults.slice(0, 20)].join('\n'),
  }
}

function faultsOf(seed: number): string[] {
  const text = writeStudioFile(randomStudioFile(seed))
  const { studio, entries, input, holdUntilMin, horizonMin } = randomPlanningCase(seed)
  const { questions } = logStateOf(studio, entries)
  const faults = [
    writeStudioFile(readStudioFile(text)) !== text && 'is not read as it was written',
    text !== writeStudioFile(randomStudioFile(seed)) && 'is another one when made again',
    questions.length > 0 && `asks ${JSON.stringify(questions[0])}`,
    !(input.nowMin < holdUntilMin && holdUntilMin < horizonMin) && 'has its times out of order',
    entries.some(({ happenedMin }) => happenedMin > input.nowMin) && 'has a logbook that knows the future',
  ]
  return faults.filter((fault) => fault !== false).map((fault) => `studio ${seed} ${fault}`)
}
