/** `runs [FILE]`: what is under way, by the names that `log` takes. */
import type { RunStage, RunState } from '#core/logbook/state.ts'
import { countText } from '#words/amounts.ts'
import { coverTexts } from '#words/trade.ts'
import { type Call, exitCodes } from './call.ts'
import { runsOf } from './runs.ts'
import { studioFileOf } from './source.ts'

export async function runsCommand({ words, options, output }: Call): Promise<number> {
  const file = await studioFileOf(words[1], options)
  const runs = runsOf(file)
  if (options.json) {
    output.out(JSON.stringify(runs))
    return exitCodes.done
  }
  if (runs.length === 0) output.out('Nothing is under way.')
  const widest = Math.max(0, ...runs.map(({ id }) => id.length))
  for (const run of runs) {
    const design = file.designs.find(({ id }) => id === run.designId)?.name ?? run.designId
    const glaze = file.glazes.find(({ id }) => id === run.glazeId)?.name
    const what = `${countText(run.count, design)}${glaze ? `, ${glaze}` : ''}`
    output.out(`  ${run.id.padEnd(widest)}  ${what.padEnd(26)} ${howFar(run, file.spots)}`)
  }
  return exitCodes.done
}

const stageTexts: Readonly<Record<RunStage, string>> = {
  begun: 'begun, not cut yet',
  clay: 'being made',
  drying: 'drying',
  'in bisque': 'in the bisque firing',
  bisque: 'bisque, to be glazed',
  glazed: 'glazed, to be fired',
  'in glaze': 'in the glaze firing',
  fired: 'fired, to be finished',
  refire: 'to be fired again',
  gone: 'gone',
}

function howFar({ stage, waits }: RunState, spots: readonly { readonly id: string; readonly name: string }[]): string {
  const wait = waits.at(-1)
  if (!wait || (stage !== 'clay' && stage !== 'drying')) return stageTexts[stage]
  return `${stageTexts[stage]}, ${coverTexts[wait.cover]}: ${spots.find(({ id }) => id === wait.spotId)?.name ?? wait.spotId}`
}
