/** Random loads of common kilns: nothing is broken by the checker's word, and a raster finds no piece in another. */
import { checkLoad } from '#core/loading/checkLoad.ts'
import { fits } from '#core/loading/fits.ts'
import { ANGLE_STEPS, type Footprint, type Load, type LoadItem, type Placement } from '#core/loading/types.ts'
import { seededRng } from '#core/rng.ts'
import { mixedPieces, someKilns } from '../core/loading/examples.ts'

const kilns = Object.values(someKilns)

export function run(cases: number, seed: number): { failures: number; report: string } {
  const failed: string[] = []
  let pieces = 0
  for (let number = 0; number < cases; number++) {
    const rng = seededRng(seed * 1_000_003 + number)
    const kiln = kilns[rng.int(kilns.length)]!
    const kind = rng.int(2) === 0 ? 'bisque' : 'glaze'
    const items = mixedPieces(1 + rng.int(45), rng, false)
    const answer = fits(kiln, items, kind, 'quick')
    if (answer.answer !== 'fits') failed.push(`case ${number}: ${answer.answer} though nothing has to go`)
    else {
      pieces += answer.load.levels.reduce((sum, { placements }) => sum + placements.length, 0)
      for (const breach of checkLoad(kiln, items, kind, answer.load))
        failed.push(`case ${number}: ${JSON.stringify(breach)}`)
      failed.push(...overlaps(answer.load, items).map((pair) => `case ${number}: ${pair} overlap`))
    }
  }
  return { failures: failed.length, report: `${pieces} pieces placed\n${failed.slice(0, 12).join('\n')}` }
}

const GRID_MM = 2

/** Pairs that share a point of the raster, level by level; pieces stacked on one another are left out. */
function overlaps({ levels }: Load, items: readonly LoadItem[]): string[] {
  const found: string[] = []
  for (const { placements } of levels) {
    const owners = new Map<string, string>()
    for (const placement of placements.filter(({ onTopOf, pose }) => !onTopOf && pose === 'upright')) {
      const { footprint } = items.find(({ key }) => key === placement.key)!
      for (const cell of cellsOf(footprint, placement)) {
        const owner = owners.get(cell)
        if (owner !== undefined && owner !== placement.key) found.push(`${owner} and ${placement.key}`)
        owners.set(cell, placement.key)
      }
    }
  }
  return [...new Set(found)]
}

/** Raster points well inside an outline as it stands. */
function cellsOf({ hulls, radiusMm }: Footprint, { xMm, yMm, angleIndex }: Placement): string[] {
  const reach = Math.max(...hulls.flat().map((p) => Math.hypot(p.xMm, p.yMm))) + radiusMm
  const angle = (2 * Math.PI * angleIndex) / ANGLE_STEPS
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const cells: string[] = []
  for (let x = Math.ceil((xMm - reach) / GRID_MM); x * GRID_MM <= xMm + reach; x++) {
    for (let y = Math.ceil((yMm - reach) / GRID_MM); y * GRID_MM <= yMm + reach; y++) {
      const [dx, dy] = [x * GRID_MM - xMm, y * GRID_MM - yMm]
      const point = { xMm: cos * dx + sin * dy, yMm: -sin * dx + cos * dy }
      if (hulls.some((hull) => depthIn(hull, point) > -radiusMm + 0.01)) cells.push(`${x} ${y}`)
    }
  }
  return cells
}

type At = { readonly xMm: number; readonly yMm: number }

/** Positive inside a convex hull; outside, minus the distance to it. */
function depthIn(hull: readonly At[], { xMm, yMm }: At): number {
  let depth = Number.POSITIVE_INFINITY
  let nearest = Number.POSITIVE_INFINITY
  hull.forEach((a, i) => {
    const b = hull[(i + 1) % hull.length]!
    const [dx, dy] = [b.xMm - a.xMm, b.yMm - a.yMm]
    const length = Math.hypot(dx, dy)
    const along = length === 0 ? 0 : Math.min(1, Math.max(0, ((xMm - a.xMm) * dx + (yMm - a.yMm) * dy) / length ** 2))
    nearest = Math.min(nearest, Math.hypot(xMm - a.xMm - along * dx, yMm - a.yMm - along * dy))
    depth = Math.min(
      depth,
      length === 0 ? Number.NEGATIVE_INFINITY : (dx * (yMm - a.yMm) - dy * (xMm - a.xMm)) / length,
    )
  })
  return hull.length > 2 && depth >= 0 ? depth : -nearest
}
