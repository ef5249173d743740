import { parseArgs } from 'node:util'
import { packRectangles } from '../src/core/loading/rectangles/packRectangles.ts'
import { faultOf, problemOf, readRectangles } from './bench/rectangleSet.ts'

// Every instance of a folder, upright and turned, with so much CPU time each; published bests beside them.
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    cpu: { type: 'string' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
    verbose: { type: 'boolean', default: false },
  },
})
const [folder] = positionals
if (folder === undefined)
  throw new Error('usage: npm run bench:pack -- DIR [--cpu S] [--seed N] [--only TEXT] [--verbose]')

const { instances, best } = readRectangles(folder)
for (const mayTurn of [true, false]) for (const cpu of values.cpu ? [Number(values.cpu)] : [0.2, 1]) run(mayTurn, cpu)

function run(mayTurn: boolean, cpu: number) {
  let total = 0,
    known = 0,
    lower = 0,
    steps = 0,
    used = 0
  const worse: string[] = []
  for (const [index, instance] of instances.entries()) {
    if (values.only && !instance.name.includes(values.only)) continue
    const begun = process.cpuUsage()
    const cpuS = () => (({ user, system }) => (user + system) / 1e6)(process.cpuUsage(begun))
    const packing = packRectangles(problemOf(instance, mayTurn), {
      seed: Number(values.seed) * 1_000_003 + index,
      steps: Infinity,
      cancelled: () => {
        steps += 16
        return cpuS() > cpu
      },
    })
    used += cpuS()
    const fault = faultOf(instance, mayTurn, packing)
    if (fault) throw new Error(`${instance.name}: ${fault}`)
    const b = best.get(instance.name)!
    const k = mayTurn ? b.turned : b.oriented
    total += packing.plates.length
    known += k
    lower += packing.lowerBound
    if (packing.plates.length !== k) worse.push(`${instance.name} ${packing.plates.length} ${k} ${packing.lowerBound}`)
    if (packing.lowerBound > k) throw new Error('LB')
  }
  console.log(mayTurn, cpu, total, known, lower, steps, used)
  if (values.verbose) console.log(worse.join('\n'))
}
