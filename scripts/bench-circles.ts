import { parseArgs } from 'node:util'
import { packCircles } from '../src/core/loading/squeeze/packCircles.ts'
import { folderGiven } from './bench/folderGiven.ts'
import { layoutBreaches, withOneGrown } from './bench/circleLoad.ts'
import { meter } from './bench/cpuMeter.ts'
import { readBestContainers, readReferenceLayouts } from './bench/readCircles.ts'

// Circles in a round container against the best known, and the load checker against the reference layouts.
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    to: { type: 'string', default: '100' },
    cpu: { type: 'string' },
    seed: { type: 'string', default: '1' },
    each: { type: 'boolean', default: false },
  },
})
const folder = folderGiven(positionals, 'bench:circles -- DIR [--to N] [--cpu S] [--seed N] [--each]')

const best = readBestContainers(folder)
const lastCount = Number(values.to)
let missed = 0
console.log('circles,cpu_s_each,worst_pct_of_best_known,mean_pct,bar,verdict')
row('equal, 2 to 30', best.equal, 2, 30, 1, { of: 'worst', must: 99.98, aim: 99.99 })
row('equal, 31 to 100', best.equal, 31, 100, 2, { of: 'mean', must: 99.59, aim: 99.8 })
row('radii 1 to n, n 5 to 30', best.rising, 5, 30, 5, { of: 'mean', must: 99.19, aim: 99.5 })
referenceRow(folder)
console.log(missed === 0 ? 'every bar met' : `${missed} bars missed`)
if (missed > 0) process.exitCode = 1

type Bar = { readonly of: 'worst' | 'mean'; readonly must: number; readonly aim: number }

function row(name: string, known: ReadonlyMap<number, number>, from: number, to: number, cpuS: number, bar: Bar): void {
  const shares: number[] = []
  for (let count = from; count <= Math.min(to, lastCount); count++) {
    const radii = Array.from({ length: count }, (_, i) => (known === best.equal ? 1 : i + 1))
    shares.push((100 * known.get(count)!) / radiusFound(radii, Number(values.cpu ?? cpuS)))
    if (values.each) console.log(`  ${count}: ${shares.at(-1)!.toFixed(4)} %`)
  }
  if (shares.length === 0) return
  const worst = Math.min(...shares)
  const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length
  const measured = bar.of === 'worst' ? worst : mean
  if (measured < bar.must) missed++
  const verdict = measured < bar.must ? 'MISSED' : measured < bar.aim ? 'met' : 'aim met'
  const wanted = `${bar.of} >= ${bar.must} (aim ${bar.aim})`
  console.log([name, values.cpu ?? cpuS, worst.toFixed(4), mean.toFixed(4), wanted, verdict].join())
}

/** Radius of the container found, measured anew from the centres so that no circle overlaps another. */
function radiusFound(radii: readonly number[], cpuS: number): number {
  const usedS = meter()
  const seed = Number(values.seed) * 1_009 + radii.length
  const { centres } = packCircles(radii, { seed, hops: Infinity, cancelled: () => usedS() > cpuS })
  let spread = 1
  centres.forEach(([x, y], i) => {
    for (const [j, [ox, oy]] of centres.slice(0, i).entries()) {
      spread = Math.max(spread, (radii[i]! + radii[j]!) / Math.hypot(x - ox, y - oy))
    }
  })
  return Math.max(...centres.map(([x, y], i) => spread * Math.hypot(x, y) + radii[i]!))
}

/** Every reference layout passes the load checker, and fails it once one circle is larger by a millionth. */
function referenceRow(from: string): void {
  const layouts = readReferenceLayouts(from)
  const passed = layouts.filter((layout) => layoutBreaches(layout).length === 0).length
  const caught = layouts.filter((layout) => layoutBreaches(withOneGrown(layout, 1e-6)).length > 0).length
  const isMet = passed === layouts.length && caught === layouts.length
  if (!isMet) missed++
  const counts = `${passed} of ${layouts.length} pass the load checker, ${caught} fail it with one circle larger by 1e-6`
  console.log(`reference layouts: ${counts}: ${isMet ? 'met' : 'MISSED'}`)
}
