import { parseArgs } from 'node:util'
import { packRectangles } from '../src/core/loading/rectangles/packRectangles.ts'
import { folderGiven } from './bench/folderGiven.ts'
import { meter } from './bench/cpuMeter.ts'
import { faultOf, problemOf, readRectangles } from './bench/readRectangles.ts'

// Two-dimensional bin packing instances of a folder, with and without turning, against published bests and the bars.
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    cpu: { type: 'string' },
    seed: { type: 'string', default: '1' },
    each: { type: 'boolean', default: false },
  },
})
const folder = folderGiven(positionals, 'bench:pack -- DIR [--cpu S] [--seed N] [--each]')

/** Bins of the 250 instances at most, by CPU seconds for each. */
const bars = [
  { mayTurn: true, cpuS: 0.2, must: 3460, aim: 3446 },
  { mayTurn: true, cpuS: 1, must: 3450, aim: 3441 },
  { mayTurn: false, cpuS: 0.2, must: 3594, aim: 3584 },
  { mayTurn: false, cpuS: 1, must: 3586, aim: 3578 },
]
const instances = readRectangles(folder)
const asked = values.cpu === undefined ? undefined : Number(values.cpu)
const runs = asked === undefined ? bars : [true, false].map((mayTurn) => runOf(mayTurn, asked))
let missed = 0
console.log('turning,cpu_s,bins,best_known,lower_bound,instances_above,bar,verdict')
for (const { mayTurn, cpuS, must, aim } of runs) {
  const { bins, known, bound, above } = total(mayTurn, cpuS)
  if (bins > must) missed++
  const verdict = must === Infinity ? 'no bar' : bins > must ? 'MISSED' : bins > aim ? 'met' : 'aim met'
  console.log([mayTurn ? 'yes' : 'no', cpuS, bins, known, bound, above, `<= ${must} (aim ${aim})`, verdict].join())
}
console.log(missed === 0 ? 'every bar met' : `${missed} bars missed`)
if (missed > 0) process.exitCode = 1

function runOf(mayTurn: boolean, cpuS: number) {
  const bar = bars.find((one) => one.mayTurn === mayTurn && one.cpuS === cpuS)
  return bar ?? { mayTurn, cpuS, must: Infinity, aim: Infinity }
}

function total(mayTurn: boolean, cpuS: number) {
  const sums = { bins: 0, known: 0, bound: 0, above: 0 }
  instances.forEach((instance, index) => {
    const usedS = meter()
    const packing = packRectangles(problemOf(instance, mayTurn), {
      seed: Number(values.seed) * 1_000_003 + index,
      steps: Infinity,
      cancelled: () => usedS() > cpuS,
    })
    const bins = packing.plates.length
    const known = mayTurn ? instance.bestTurned : instance.bestOriented
    const fault = faultOf(instance, mayTurn, packing)
    if (fault !== undefined) throw new Error(`${instance.name}: ${fault}`)
    if (packing.lowerBound > known)
      throw new Error(`${instance.name}: a bound of ${packing.lowerBound}, and ${known} are known`)
    sums.bins += bins
    sums.known += known
    sums.bound += packing.lowerBound
    if (bins > known) sums.above++
    if (values.each && bins > known) console.log(`  ${instance.name}: ${bins}, known ${known}`)
  })
  return sums
}
