/**
 * Random loads of common kilns: nothing is broken by the checker's word, a raster finds no piece in another, and what
 * was proved impossible is never found.
 */
import { checkLoad } from '#core/loading/checkLoad.ts'
import { fits } from '#core/loading/fits.ts'
import type { KilnSpace, Load, LoadItem, LoadKind } from '#core/loading/types.ts'
import { seededRng, type Rng } from '#core/rng.ts'
import { mixedPieces, pilingPieces, someKilns } from '../core/loading/examples.ts'
import { overlapsOnRaster } from '../core/loading/raster.ts'

const kilns = Object.values(someKilns)

export function run(cases: number, seed: number): { failures: number; report: string } {
  const failed: string[] = []
  const counts = { placed: 0, piled: 0, impossible: 0, notFound: 0 }
  for (let number = 0; number < cases; number++) {
    const rng = seededRng(seed * 1_000_003 + number)
    const kiln = kilns[rng.int(kilns.length)]!
    const kind = rng.int(2) === 0 ? 'bisque' : 'glaze'
    const count = 1 + rng.int(rng.int(4) === 0 ? 130 : 40)
    const items = rng.int(2) === 0 ? mixedPieces(count, rng, false) : pilingPieces(count, rng, false)
    failed.push(...faultsOf(kiln, items, kind, rng, counts).map((fault) => `case ${number}: ${fault}`))
  }
  const { placed, piled, impossible, notFound } = counts
  const report = `${placed} pieces placed, ${piled} of them on or in others; ${impossible} proofs, ${notFound} not found`
  return { failures: failed.length, report: [report, ...failed.slice(0, 12)].join('\n') }
}

type Counts = { placed: number; piled: number; impossible: number; notFound: number }

function faultsOf(kiln: KilnSpace, items: readonly LoadItem[], kind: LoadKind, rng: Rng, counts: Counts): string[] {
  const answer = fits(kiln, items, kind, 'quick')
  if (answer.answer !== 'fits') return [`${answer.answer} though nothing has to go`]
  const placements = answer.load.levels.flatMap((level) => level.placements)
  counts.placed += placements.length
  counts.piled += placements.filter(({ onTopOf }) => onTopOf !== undefined).length
  const breaches = checkLoad(kiln, items, kind, answer.load).map((breach) => JSON.stringify(breach))
  const overlaps = overlapsOnRaster(kiln, kind, items, answer.load)
  return [...breaches, ...overlaps, ...falseProofs(kiln, items, kind, answer.load, rng, counts)]
}

/** What stands in a load must never be called impossible: neither all of it, nor any part. */
function falseProofs(
  kiln: KilnSpace,
  items: readonly LoadItem[],
  kind: LoadKind,
  load: Load,
  rng: Rng,
  counts: Counts,
): string[] {
  const inside = new Set(load.levels.flatMap(({ placements }) => placements.map(({ key }) => key)))
  const must = (kept: (item: LoadItem) => boolean): LoadItem[] =>
    items.filter(kept).map((item) => ({ ...item, mustGo: true }))
  const all = fits(
    kiln,
    must(() => true),
    kind,
    'bound',
  )
  if (all.answer === 'impossible') counts.impossible++
  else counts.notFound++
  const proved = [
    fits(
      kiln,
      must((item) => inside.has(item.key)),
      kind,
      'bound',
    ),
    fits(
      kiln,
      must((item) => inside.has(item.key) && rng.int(2) === 0),
      kind,
      'bound',
    ),
  ].filter(({ answer }) => answer === 'impossible')
  const isAllIn = inside.size === items.length
  return [
    ...proved.map(() => 'pieces of a load that was found are called impossible'),
    ...(isAllIn && all.answer === 'impossible' ? ['all went in and yet are called impossible'] : []),
  ]
}
