/** `npm run soak -- NAME --cases N --seed S`: a long run of test/soak/NAME.ts, whose short run is among the tests. */
import { existsSync, readdirSync } from 'node:fs'
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { parseArgs } from 'node:util'

/** What every file in test/soak exports as `run`. */
type Soak = { readonly run: (cases: number, seed: number) => SoakResult | Promise<SoakResult> }
type SoakResult = { readonly failures: number; readonly report: string }

const folder = path.resolve(import.meta.dirname, '../test/soak')
const { positionals, values } = parseArgs({
  allowPositionals: true,
  options: { cases: { type: 'string', default: '1000' }, seed: { type: 'string', default: '1' } },
})
const [name] = positionals
const cases = Number(values.cases)
const seed = Number(values.seed)

if (
  !name ||
  !existsSync(path.join(folder, `${name}.ts`)) ||
  !Number.isInteger(cases) ||
  cases < 1 ||
  !Number.isInteger(seed)
) {
  const names = existsSync(folder) ? readdirSync(folder).map((file) => path.basename(file, '.ts')) : []
  console.error(`npm run soak -- NAME --cases N --seed S, where NAME is one of: ${names.join(', ')}`)
  process.exit(2)
}

const { run } = (await import(pathToFileURL(path.join(folder, `${name}.ts`)).href)) as Soak
const startedS = process.cpuUsage().user / 1e6
const { failures, report } = await run(cases, seed)
console.log(report)
console.log(
  `${name}: ${cases} cases, seed ${seed}, ${failures} failures, ${(process.cpuUsage().user / 1e6 - startedS).toFixed(1)} s of CPU`,
)
process.exitCode = failures > 0 ? 1 : 0
