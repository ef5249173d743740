import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { checkSchedule, costsOf } from '../src/core/planning/search/check.ts'
import { solve } from '../src/core/planning/search/solve.ts'
import { folderGiven } from './bench/folderGiven.ts'
import { bestKnownIn, gapSummary } from './bench/bestKnown.ts'
import { explainedSummary, explainInfeasible, type Explained } from './bench/explainInfeasible.ts'
import { readScheduling } from './bench/readScheduling.ts'

// Every .sm and .sch of a folder (or of its `instances`), with so much CPU time each; published bests beside them.
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    cpu: { type: 'string', default: '10' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
    explain: { type: 'boolean', default: false },
  },
})
const folder = folderGiven(positionals, 'bench:schedule -- DIR [--cpu S] [--seed N] [--only TEXT] [--explain]')

const published = bestKnownIn(folder)
const files = [folder, join(folder, 'instances')]
  .flatMap((place) => filesIn(place))
  .filter((path) => /\.(sm|sch)$/i.test(path) && (values.only === undefined || path.includes(values.only)))
const rows = []
const explained: Explained[] = []
console.log('instance,status,makespan,lower_bound,cpu_s,conflicts')
for (const path of files) {
  const instance = path.replace(/^.*\//, '').replace(/\.\w+$/, '')
  const problem = readScheduling(path, readFileSync(path, 'latin1'))
  const begun = process.cpuUsage()
  const cpuS = () => (({ user, system }) => (user + system) / 1e6)(process.cpuUsage(begun))
  const { status, plan, lowerBound, conflicts } = solve(problem, {
    seed: Number(values.seed),
    conflicts: Infinity,
    cancelled: () => cpuS() > Number(values.cpu),
  })
  const usedS = cpuS()
  const breaches = plan ? checkSchedule(problem, plan) : []
  if (breaches.length > 0) throw new Error(`${instance}: ${JSON.stringify(breaches[0])}`)
  const makespan = plan ? costsOf(problem, plan)[0]! : undefined
  rows.push({ instance, status, makespan, lowerBound, cpuS: usedS, known: published.get(instance) })
  if (values.explain && status === 'infeasible') explained.push(explainInfeasible(problem, Number(values.seed)))
  console.log([instance, status, makespan ?? '', plan ? lowerBound : '', usedS.toFixed(2), conflicts].join())
}
console.log(gapSummary(rows))
if (values.explain) console.log(explainedSummary(explained))
if (gapSummary(rows).includes('CONTRADICTION')) process.exitCode = 1

function filesIn(place: string): string[] {
  try {
    return readdirSync(place).map((name) => join(place, name))
  } catch {
    return []
  }
}
