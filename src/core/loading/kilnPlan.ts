import { arrangementsOf, type Arrangement } from './arrangements.ts'
import { circleFootprint, rectangleFootprint } from './footprint.ts'
import { oncePer } from './once.ts'
import { outlineOf, type Outline } from './outline.ts'
import type { Footprint, KilnSpace, PostKind } from './types.ts'

/** Posts that stand on one another, to one length; `kinds` are their places in the furniture's list. */
export type PostPile = {
  readonly posts: readonly PostKind[]
  readonly kinds: readonly number[]
  readonly lengthMm: number
}

export type KilnPlan = {
  readonly kiln: KilnSpace
  readonly arrangements: readonly Arrangement[]
  /** By length, then by number of posts. */
  readonly piles: readonly PostPile[]
  /** The widest post section, which the packer keeps clear of everywhere. */
  readonly postOutline: Outline
}

/** Ways to furnish a kiln. */
export const kilnPlanOf = oncePer((kiln: KilnSpace): KilnPlan => ({
  kiln,
  arrangements: arrangementsOf(kiln),
  piles: postPiles(kiln.furniture.posts),
  postOutline: widestPost(kiln.furniture.posts),
}))

/** Seen from above; a triangle's middle is its centroid. */
export function postFootprint(post: PostKind): Footprint {
  const { section, sizeMm } = post
  if (section === 'round') return circleFootprint(sizeMm)
  if (section === 'square') return rectangleFootprint(sizeMm, sizeMm)
  const low = -sizeMm / (2 * Math.sqrt(3))
  const corners = [-sizeMm / 2, low, sizeMm / 2, low, 0, sizeMm / Math.sqrt(3)]
  return { hulls: [[0, 2, 4].map((i) => ({ xMm: corners[i]!, yMm: corners[i + 1]! }))], radiusMm: 0 }
}

function widestPost(posts: readonly PostKind[]): Outline {
  const outlines = posts.map((post) => outlineOf(postFootprint(post)))
  return outlines.reduce((a, b) => (b.reachMm > a.reachMm ? b : a), outlineOf(circleFootprint(1)))
}

/** Single posts, and two or three on one another. */
function postPiles(posts: readonly PostKind[]): PostPile[] {
  const piles: PostPile[] = []
  const add = (...kinds: number[]): void => {
    const chosen = kinds.map((kind) => posts[kind]!)
    piles.push({ posts: chosen, kinds, lengthMm: chosen.reduce((sum, post) => sum + post.lengthMm, 0) })
  }
  for (let i = 0; i < posts.length; i++) {
    add(i)
    for (let j = i; j < posts.length; j++) {
      add(i, j)
      for (let k = j; k < posts.length; k++) add(i, j, k)
    }
  }
  return piles.sort((a, b) => a.lengthMm - b.lengthMm || a.posts.length - b.posts.length)
}
