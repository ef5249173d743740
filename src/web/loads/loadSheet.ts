/** A load on paper: in which order it is put in, with which posts, and how it is fired. */
import { type CautionCode, cautionsFor } from '#core/clay/cautions.ts'
import type { KilnSpace, LoadLevel } from '#core/loading/types.ts'
import type { PlannedFiring } from '#core/planning/plan.ts'
import { lengthText } from '#words/amounts.ts'
import type { Units } from '#words/context.ts'
import type { Studio } from '../data/queries.ts'
import { levelTexts } from './ware.ts'

export type SheetLevel = {
  readonly name: string
  /** "3 posts 150 mm, 1 post 100 mm on 50 mm", or that it lies on the floor. */
  readonly posts: string
  readonly shelves: string
  readonly height: string
  readonly pieces: readonly string[]
}

/** From the floor up, as hands put it in. */
export const sheetLevels = (firing: PlannedFiring, space: KilnSpace, studio: Studio, units: Units): SheetLevel[] =>
  (firing.load?.levels ?? []).map((level, i) => ({
    name: `Shelf ${i + 1}`,
    posts: postsText(level, space, units),
    shelves: counted(level.shelves.map(({ shelfId }) => shelfText(space, shelfId))),
    height: lengthText(level.usableHeightMm, units),
    pieces: levelTexts(firing, level.placements, studio),
  }))

function postsText({ posts }: LoadLevel, { furniture }: KilnSpace, units: Units): string {
  const piles = posts.map(({ postIds }) =>
    postIds
      .map((postId) => lengthText(furniture.posts.find(({ id }) => id === postId)?.lengthMm ?? 0, units))
      // The lowest is put down first.
      .join(' and on it '),
  )
  return piles.length === 0 ? 'on the floor' : `posts: ${counted(piles)}`
}

const shelfText = ({ furniture }: KilnSpace, shelfId: string): string => {
  const share = furniture.shelves.find(({ id }) => id === shelfId)?.shape.share ?? 'full'
  return `${share === 'full' ? 'whole' : share} shelf`
}

/** "3 × 150 mm, 1 × 100 mm". */
function counted(texts: readonly string[]): string {
  return [...new Set(texts)].map((text) => `${texts.filter((other) => other === text).length} × ${text}`).join(', ')
}

/** What to beware of with this load. */
export function sheetCautions(firing: PlannedFiring, { designs, clays, firingSchedules }: Studio): CautionCode[] {
  const cone = firingSchedules.find(({ id }) => id === firing.scheduleId)?.cone
  const own = designs.filter(({ id }) => firing.members.some(({ designId }) => designId === id))
  const codes = own.flatMap(({ clayId }) => {
    const clay = clays.find(({ id }) => id === clayId)
    const range = clay ? { clayConeLow: clay.coneLow, clayConeHigh: clay.coneHigh } : {}
    return cautionsFor({ doing: 'firing', firing: firing.kind, ...(cone ? { cone } : {}), ...range })
  })
  return [...new Set([...codes, ...cautionsFor({ doing: 'looking in' }), ...cautionsFor({ doing: 'opening' })])]
}
