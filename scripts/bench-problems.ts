import { parseArgs } from 'node:util'
import { checkSchedule, costsOf } from '../src/core/planning/search/check.ts'
import { solve } from '../src/core/planning/search/solve.ts'
import { drawStudioSized } from './bench/drawStudioSized.ts'

// Problems of a studio's size by seed: how soon the first plan is there, and what is gained in so much CPU time. Each
// bar is printed with whether it was met, and one that was not fails the run.
const { values } = parseArgs({
  options: {
    tasks: { type: 'string', default: '500' },
    cpu: { type: 'string', default: '30' },
    seed: { type: 'string', default: '1' },
    count: { type: 'string', default: '1' },
  },
})
const bars = { firstCpuS: Number(values.tasks) <= 500 ? 2 : 10, gainPercent: 10, memoryMb: 500 }
const missed: string[] = []
console.log('seed,tasks,status,first_cpu_s,first_costs,costs,gain_percent,conflicts,iterations,memory_mb')
for (let seed = Number(values.seed); seed < Number(values.seed) + Number(values.count); seed++) {
  const problem = drawStudioSized(Number(values.tasks), seed)
  const begun = process.cpuUsage()
  const cpuS = () => (({ user, system }) => (user + system) / 1e6)(process.cpuUsage(begun))
  let first: { cpuS: number; costs: readonly number[] } | undefined
  const { status, plan, costs, conflicts, iterations } = solve(problem, {
    seed,
    conflicts: Infinity,
    cancelled: () => cpuS() > Number(values.cpu),
    onBetter: (_, better) => (first ??= { cpuS: cpuS(), costs: better }),
  })
  const breaches = plan ? checkSchedule(problem, plan) : []
  if (breaches.length > 0 || (plan && JSON.stringify(costsOf(problem, plan)) !== JSON.stringify(costs))) {
    throw new Error(`seed ${seed}: ${JSON.stringify(breaches[0] ?? 'costs differ')}`)
  }
  const gain = first ? (100 * (first.costs[0]! - costs[0]!)) / Math.max(1, first.costs[0]!) : 0
  const memoryMb = Math.round(process.memoryUsage().rss / 2 ** 20)
  const told = (all: readonly number[] | undefined) => (all ?? []).join(' ')
  console.log(
    [
      seed,
      problem.tasks.length,
      status,
      first?.cpuS.toFixed(2),
      told(first?.costs),
      told(costs),
      gain.toFixed(1),
      conflicts,
      iterations,
      memoryMb,
    ].join(),
  )
  const firstCpuS = first?.cpuS ?? Infinity
  const isProved = status === 'optimal'
  bar(`first plan in ${firstCpuS.toFixed(2)} CPU-s, at most ${bars.firstCpuS}`, firstCpuS <= bars.firstCpuS)
  bar('nothing hard broken, costs as counted anew', plan !== undefined)
  bar(`${gain.toFixed(1)} % better, at least ${bars.gainPercent}, or proved`, isProved || gain >= bars.gainPercent)
  bar(`${memoryMb} MB, under ${bars.memoryMb}`, memoryMb < bars.memoryMb)
}
if (missed.length > 0) process.exitCode = 1

function bar(what: string, isMet: boolean): void {
  console.log(`# ${isMet ? 'pass' : 'FAIL'}: ${what}`)
  if (!isMet) missed.push(what)
}
