import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { checkSchedule } from '../src/core/planning/search/check.ts'
import { solve } from '../src/core/planning/search/solve.ts'
import { folderGiven } from './bench/folderGiven.ts'
import { bestKnownIn, gapSummary } from './bench/bestKnown.ts'
import { ovenObjective } from './bench/checkOvens.ts'
import { ovenProblem } from './bench/ovenProblem.ts'
import { readOvens } from './bench/readOvens.ts'

// Every .dzn of a folder (or of its `instances`), with so much CPU time each; published bests beside them.
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    cpu: { type: 'string', default: '30' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
    jobs: { type: 'string', default: '100' },
  },
})
const folder = folderGiven(positionals, 'bench:ovens -- DIR [--cpu S] [--seed N] [--jobs MOST] [--only TEXT]')

const published = bestKnownIn(folder)
const rows = []
console.log('instance,status,objective,lower_bound,cpu_s,conflicts')
for (const path of instancesIn(folder)) {
  const instance = path.replace(/^.*\//, '').replace(/\.dzn$/, '')
  const ovens = readOvens(readFileSync(path, 'latin1'))
  if (ovens.jobs.length > Number(values.jobs)) continue
  const begun = process.cpuUsage()
  const cpuS = () => (({ user, system }) => (user + system) / 1e6)(process.cpuUsage(begun))
  const problem = ovenProblem(ovens)
  const { status, plan, costs, lowerBound, conflicts } = solve(problem, {
    seed: Number(values.seed),
    conflicts: Infinity,
    cancelled: () => cpuS() > Number(values.cpu),
  })
  const usedS = cpuS()
  const objective = plan && ovenObjective(ovens, plan)
  const [breach] = plan ? checkSchedule(problem, plan) : []
  if (breach) throw new Error(`${instance}: ${JSON.stringify(breach)}`)
  // A firing with nothing in it costs the search something and is no batch of the instance.
  if (plan && objective! > costs[0]!) throw new Error(`${instance}: ${costs[0]} is ${objective} by the instance`)
  rows.push({ instance, status, makespan: objective, lowerBound, cpuS: usedS, known: published.get(instance) })
  console.log([instance, status, objective ?? '', plan ? lowerBound : '', usedS.toFixed(2), conflicts].join())
}
const summary = gapSummary(rows)
console.log(summary)
if (summary.includes('CONTRADICTION')) process.exitCode = 1

function instancesIn(place: string): string[] {
  return readdirSync(place, { withFileTypes: true })
    .flatMap((entry) => {
      if (entry.isDirectory() && entry.name === 'instances') return instancesIn(join(place, entry.name))
      return entry.name.endsWith('.dzn') ? [join(place, entry.name)] : []
    })
    .toSorted()
}
