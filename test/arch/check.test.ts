import { existsSync, readFileSync, readdirSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'

const core = path.resolve(import.meta.dirname, '../../src/core')

/** All that a file of the core reaches by its import lines, types and re-exports included, as paths within the core. */
function reachedFrom(files: readonly string[]): ReadonlySet<string> {
  const reached = new Set(files)
  for (const file of reached) {
    for (const [, from] of readFileSync(path.join(core, file), 'utf8').matchAll(
      /^\s*(?:import|export|\}).*?from '([^']+)'/gm,
    )) {
      if (from!.startsWith('#core/')) reached.add(from!.slice('#core/'.length))
      else if (from!.startsWith('.')) reached.add(path.join(path.dirname(file), from!))
    }
  }
  return reached
}

const filesIn = (folder: string): string[] =>
  readdirSync(path.join(core, folder))
    .filter((file) => file.endsWith('.ts'))
    .map((file) => `${folder}/${file}`)

/** What makes plans and loads, and the quick way of reckoning drying: the check is to find their mistakes. */
const makers = [
  ...filesIn('planning').filter((file) => !['planning/plan.ts', 'planning/reasons.ts'].includes(file)),
  ...readdirSync(path.join(core, 'planning/construct')).map((file) => `planning/construct/${file}`),
  'planning/search/solve.ts',
  'drying/fastPath.ts',
  'loading/fits.ts',
  'loading/construct.ts',
  'loading/improve.ts',
  'loading/separation.ts',
]

test('the check of plans reaches nothing that makes plans, packs loads, or reckons drying the quick way', () => {
  const reached = reachedFrom(filesIn('planning/check'))
  expect(makers.filter((file) => !existsSync(path.join(core, file)))).toEqual([])
  expect(makers.filter((file) => reached.has(file))).toEqual([])
  const planning = [...reached].filter((file) => file.startsWith('planning/'))
  expect(planning.filter((file) => !/^planning\/(check|facts)\/|^planning\/(plan|reasons)\.ts$/.test(file))).toEqual([])
})

test('it does reach the full drying model, the logbook and the check of loads', () => {
  const reached = reachedFrom(filesIn('planning/check'))
  for (const file of ['drying/fullModel.ts', 'logbook/fold.ts', 'loading/checkLoad.ts', 'firing/times.ts']) {
    expect(reached).toContain(file)
  }
})

test('what makes plans would be seen to reach them', () => {
  const reached = reachedFrom(['planning/makePlan.ts'])
  for (const file of ['planning/construct/construct.ts', 'loading/fits.ts', 'drying/fastPath.ts'])
    expect(reached).toContain(file)
})
