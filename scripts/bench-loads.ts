/**
 * `npm run bench:loads -- --seeds A-B`: firings for generated kilns and ware against a proved bound, height-sorted first
 * fit of the same outlines and a packer of bounding boxes; then how fast and how fully one round kiln is loaded. Seconds
 * are CPU, divided by how slow this machine is. One line a bar, the verdict last; exits 1 when a bar is missed. With
 * `--long 60` only how much of what a minute places a second does, a minute a seed.
 */
import { parseArgs } from 'node:util'
import { checkLoad } from '#core/loading/checkLoad.ts'
import { packLoads } from '#core/loading/packLoads.ts'
import { boundingBoxFirings } from './bench/loads/boundingBoxes.ts'
import { firstFitFirings } from './bench/loads/firstFit.ts'
import { generatedCase } from './bench/loads/generated.ts'
import { shareOfLong } from './bench/loads/long.ts'
import { oracleTimes } from './bench/loads/oracle.ts'
import { machineFactor } from './bench/machineFactor.ts'

const { values } = parseArgs({
  options: {
    seeds: { type: 'string', default: '1-24' },
    iterations: { type: 'string', default: '1000' },
    long: { type: 'string' },
    rounds: { type: 'string', default: '4000' },
  },
})
const [from, to] = values.seeds.split('-').map(Number)
const iterations = Number(values.iterations)
if (!Number.isInteger(from) || !Number.isInteger(to) || to! < from! || !Number.isInteger(iterations)) {
  console.error('npm run bench:loads -- --seeds A-B [--iterations N] [--rounds N of the long search] [--long SECONDS]')
  process.exit(2)
}
const seeds = Array.from({ length: to! - from! + 1 }, (_, i) => from! + i)

if (values.long !== undefined) {
  const isMet = againstLong(Number(values.long))
  process.exit(isMet ? 0 : 1)
}

const rows = seeds.map((seed) => {
  const { name, kiln, items } = generatedCase(seed)
  const { loads, leftOut, atLeast } = packLoads(kiln, items, 'glaze', { seed, iterations })
  const breaches = loads.flatMap((load) => {
    const inside = new Set(load.levels.flatMap(({ placements }) => placements.map(({ key }) => key)))
    return checkLoad(
      kiln,
      items.filter(({ key }) => inside.has(key)),
      'glaze',
      load,
    )
  }).length
  const going = items.filter(({ key }) => !leftOut.some((left) => left.key === key))
  const row = {
    ours: loads.length,
    atLeast,
    firstFit: firstFitFirings(kiln, going),
    boxes: boundingBoxFirings(kiln, going),
    breaches,
  }
  console.log(
    `${name.padEnd(16)} firings ${row.ours}, proved ${atLeast}, first fit ${row.firstFit}, boxes ${row.boxes}, left out ${leftOut.length}, breaches ${breaches}`,
  )
  return row
})
const sum = (amount: (row: (typeof rows)[number]) => number): number =>
  rows.reduce((total, row) => total + amount(row), 0)
const [ours, atLeast, firstFit, boxes] = [
  sum((row) => row.ours),
  sum((row) => row.atLeast),
  sum((row) => row.firstFit),
  sum((row) => row.boxes),
]
console.log(`firings in all: ${ours}; proved ${atLeast}; first fit ${firstFit}; bounding boxes ${boxes}`)

const before = machineFactor()
const oracle = oracleTimes(seeds, Number(values.rounds))
const factor = (before + machineFactor()) / 2
const median = (amounts: readonly number[]): number => amounts.toSorted((a, b) => a - b)[amounts.length >> 1]!
const mean = (amounts: readonly number[]): number => amounts.reduce((total, own) => total + own, 0) / amounts.length
const fair = (amounts: readonly number[]): number => median(amounts) / factor

let isGood = true
function bar(name: string, isMet: boolean, found: string): void {
  isGood &&= isMet
  console.log(`${isMet ? 'pass' : 'FAIL'}  ${name}: ${found}`)
}

console.log(`this machine takes ${factor.toFixed(2)} times as long as the one on which the bars were set`)
bar('no breach of the checker', sum((row) => row.breaches) === 0, `${sum((row) => row.breaches)}`)
bar(
  'never more firings than first fit',
  rows.every((row) => row.ours <= row.firstFit),
  `${ours} against ${firstFit}`,
)
bar(
  'never more firings than bounding boxes',
  rows.every((row) => row.ours <= row.boxes),
  `${ours} against ${boxes}`,
)
bar(
  'never fewer firings than proved',
  rows.every((row) => row.ours >= row.atLeast),
  `${ours} against ${atLeast}`,
)
bar(
  'quick, median of 40 pieces of known shapes <= 5 ms',
  fair(oracle.quickMs) <= 5,
  `${fair(oracle.quickMs).toFixed(2)} ms; of new shapes ${fair(oracle.quickNewMs).toFixed(2)} ms`,
)
bar(
  'quick places >= 95 % of thorough',
  mean(oracle.quickShares) >= 0.95,
  `${(100 * mean(oracle.quickShares)).toFixed(1)} %`,
)
bar('bound, median <= 50 us', fair(oracle.boundUs) <= 50, `${fair(oracle.boundUs).toFixed(0)} us`)
bar('a dragged piece checked in < 2 ms', fair(oracle.dragMs) < 2, `${fair(oracle.dragMs).toFixed(2)} ms`)
bar('40 pieces loaded in < 1 s', fair(oracle.thoroughS) < 1, `${fair(oracle.thoroughS).toFixed(2)} s`)
bar(
  `>= 92 % of the area of ${values.rounds} rounds`,
  mean(oracle.thoroughShares) >= 0.92,
  `${(100 * mean(oracle.thoroughShares)).toFixed(1)} %, least ${(100 * Math.min(...oracle.thoroughShares)).toFixed(1)} %`,
)
console.log(isGood ? 'bench:loads: every bar met' : 'bench:loads: a bar was missed')
process.exitCode = isGood ? 0 : 1

/** Prints the share of each seed and the verdict. */
function againstLong(seconds: number): boolean {
  const shares = seeds.map((seed) => {
    const share = shareOfLong(seed, seconds * machineFactor())
    console.log(`${seed}: ${(100 * share).toFixed(1)} %`)
    return share
  })
  const meanShare = shares.reduce((total, own) => total + own, 0) / shares.length
  const isMet = meanShare >= 0.92
  const found = `mean ${(100 * meanShare).toFixed(2)} %, least ${(100 * Math.min(...shares)).toFixed(1)} %`
  console.log(
    `${isMet ? 'pass' : 'FAIL'}  >= 92 % of the area that ${seconds} s place, ${shares.length} seeds: ${found}`,
  )
  return isMet
}
