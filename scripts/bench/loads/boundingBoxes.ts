/** What a packer of rectangles makes of the same pieces by their bounding boxes. */
import type * as maxRects from 'maxrects-packer'
import { kilnPlanOf } from '#core/loading/kilnPlan.ts'
import { outlineOf } from '#core/loading/outline.ts'
import { shapeAt } from '#core/loading/shape.ts'
import type { KilnSpace, LoadItem, ShelfKind } from '#core/loading/types.ts'

// The package calls its main file a module, which it is not; the other file of the same code is one.
const modulePath: string = 'maxrects-packer/dist/maxrects-packer.mjs'
const { MaxRectsPacker } = (await import(modulePath)) as typeof maxRects

type Box = { width: number; height: number; tallMm: number }

/**
 * Firings by maxrects-packer: levels by height, each the fullest first bin of what is left, levels first fit into
 * loads. In its favour posts stand wherever it likes and halves count as one whole shelf; a round shelf offers its inner
 * square.
 */
export function boundingBoxFirings(kiln: KilnSpace, items: readonly LoadItem[]): number {
  const gapMm = kiln.clearances.glazeGapMm
  const [lengthMm, widthMm] = rectangleIn(kiln)
  let left = items
    .map((item): Box => {
      const { box } = shapeAt(outlineOf(item.footprint), 0)
      return { width: box.maxX - box.minX, height: box.maxY - box.minY, tallMm: item.heightMm }
    })
    .toSorted((a, b) => b.tallMm - a.tallMm)
  const { postSpots } = kilnPlanOf(kiln).arrangements[0]!.columns[0]!
  const sizeMm = kiln.furniture.posts[0]!.sizeMm
  const posts = postSpots.map((): Box => ({ width: sizeMm, height: sizeMm, tallMm: 0 }))
  const levelsMm: number[] = []
  while (left.length > 0) {
    const packer = new MaxRectsPacker<Box & { x: number; y: number }>(lengthMm + gapMm, widthMm + gapMm, 0, {
      smart: false,
      pot: false,
      square: false,
      allowRotation: true,
    })
    const level = fullestLevel(packer, posts, left, gapMm)
    levelsMm.push(level[0]!.tallMm)
    left = left.filter((box) => !level.includes(box))
  }
  return loadsOf(kiln, levelsMm)
}

/** The tallest left, and what else the library sets beside it on one shelf. */
function fullestLevel(
  packer: maxRects.MaxRectsPacker<Box & { x: number; y: number }>,
  posts: readonly Box[],
  left: readonly Box[],
  gapMm: number,
): Box[] {
  const level: Box[] = []
  for (const post of posts) packer.add({ ...post, width: post.width + gapMm, height: post.height + gapMm, x: 0, y: 0 })
  for (const box of left) {
    const asked = { ...box, width: box.width + gapMm, height: box.height + gapMm, x: 0, y: 0 }
    packer.add(asked)
    if (packer.bins.length > 1) packer.bins.splice(1)
    else level.push(box)
  }
  return level
}

/** The largest rectangle (by square corners) of one level's surface: of a whole rectangle, or the square in a round. */
function rectangleIn(kiln: KilnSpace): [number, number] {
  const column = kilnPlanOf(kiln).arrangements[0]!.columns[0]!
  const shapes = column.shelfKind.shape
  if (shapes.kind === 'rectangular') return [shapes.lengthMm, shapes.widthMm * 2]
  const wide = shapes.kind === 'round' ? shapes.diameterMm : shapes.acrossFlatsMm
  const chamber = kiln.chamber.shape
  const straightMm = chamber.kind === 'oval' ? chamber.lengthMm - chamber.widthMm : 0
  return [wide / Math.SQRT2 + straightMm, wide / Math.SQRT2]
}

function loadsOf(kiln: KilnSpace, levelsMm: readonly number[]): number {
  const { clearances, chamber, furniture } = kiln
  const thick = (shelves: readonly ShelfKind[]): number => Math.min(...shelves.map(({ thicknessMm }) => thicknessMm))
  const lengths = furniture.posts.map(({ lengthMm }) => lengthMm).toSorted((a, b) => a - b)
  const postMm = (needMm: number): number => lengths.find((mm) => mm >= needMm) ?? Math.ceil(needMm / 25) * 25
  const shelfMm = thick(furniture.shelves)
  const loads: number[][] = []
  const heightOf = (levels: readonly number[]): number =>
    lengths[0]! +
    shelfMm +
    levels.slice(0, -1).reduce((sum, mm) => sum + postMm(mm + clearances.headspaceMm) + shelfMm, 0) +
    levels.at(-1)! +
    clearances.lidMm
  for (const levelMm of levelsMm) {
    const load = loads.find(
      (own) => own.length < furniture.shelves[0]!.count && heightOf([...own, levelMm]) <= chamber.heightMm,
    )
    if (load === undefined) loads.push([levelMm])
    else load.push(levelMm)
  }
  return loads.length
}
