/**
 * What a load is made of: outlines, kilns, pieces, and the load itself. Plain data, shared by the packer, the checker,
 * the drawings and the planner; it holds no geometry.
 *
 * Axes: the origin is the middle of the kiln's floor, x along its length, y across, z up. Angles are whole steps of the
 * table of `ANGLE_STEPS` a turn, counter-clockwise, so that a stored load turns a piece the same way on every machine.
 */

/** Steps in one full turn: a quarter of a degree each. Divisible by 2, 3, 4, 5, 6, 8, 9, 10 and 12. */
export const ANGLE_STEPS = 1_440

export type Point = { readonly xMm: number; readonly yMm: number }

/**
 * The outline of a piece seen from above: every point within `radiusMm` of one of the hulls. A hull is convex and
 * counter-clockwise; one point makes a circle, two a stadium. Non-convex outlines are the union of several hulls.
 */
export type Footprint = { readonly hulls: readonly (readonly Point[])[]; readonly radiusMm: number }

/** Why something is so: a code for `src/words` and the amounts its sentence needs. */
export type Reason = { readonly code: string; readonly params: Readonly<Record<string, string | number>> }

/** An oval chamber has round ends and a straight middle; a many-sided one has a flat facing +x. */
export type ChamberShape =
  | { readonly kind: 'round'; readonly diameterMm: number }
  | { readonly kind: 'oval'; readonly lengthMm: number; readonly widthMm: number }
  | { readonly kind: 'many-sided'; readonly sides: number; readonly acrossFlatsMm: number }
  | { readonly kind: 'rectangular'; readonly lengthMm: number; readonly widthMm: number }

/** An upright cylinder that ware and furniture stay out of: a thermocouple, a witness cone, an element's bulge. */
export type KeepOut = {
  readonly name: string
  readonly xMm: number
  readonly yMm: number
  readonly radiusMm: number
  readonly fromZMm: number
  readonly toZMm: number
}

export type Chamber = {
  readonly shape: ChamberShape
  /** Floor to lid. */
  readonly heightMm: number
  readonly keepOuts: readonly KeepOut[]
}

export type ShelfShare = 'full' | 'half' | 'third' | 'quarter'

/**
 * A share of a round or many-sided shelf is the wedge from +x counter-clockwise (half: y >= 0; third: 120 degrees;
 * quarter: x, y >= 0), placed by the middle of the whole. A rectangle is given by its own sides and placed by its
 * middle; its share only says how it is called.
 */
export type ShelfShape =
  | { readonly kind: 'round'; readonly diameterMm: number; readonly share: ShelfShare }
  | { readonly kind: 'many-sided'; readonly sides: number; readonly acrossFlatsMm: number; readonly share: ShelfShare }
  | { readonly kind: 'rectangular'; readonly lengthMm: number; readonly widthMm: number; readonly share: ShelfShare }

export type ShelfKind = {
  readonly id: string
  readonly shape: ShelfShape
  readonly thicknessMm: number
  readonly massKg: number
  readonly count: number
  /** Ware it carries at most; absent: not limited. */
  readonly maxWareKg?: number
}

export type PostSection = 'square' | 'round' | 'triangle'

export type PostKind = {
  readonly id: string
  readonly lengthMm: number
  readonly section: PostSection
  /** Side of a square or triangle, diameter of a round post. */
  readonly sizeMm: number
  readonly count: number
}

export type Furniture = { readonly shelves: readonly ShelfKind[]; readonly posts: readonly PostKind[] }

/** Least distances, all editable. `glazeGapMm` parts any two pieces of a glaze load. */
export type Clearances = {
  readonly glazeGapMm: number
  readonly bisqueGapMm: number
  readonly wallMm: number
  readonly postMm: number
  /** Top of a piece to the shelf above. */
  readonly headspaceMm: number
  /** Top of a piece to the lid. */
  readonly lidMm: number
  /** Around a keep-out. */
  readonly keepOutMm: number
  /** Around a piece nested in another. */
  readonly nestMm: number
  /** Middle of a post to the edge of the shelf it carries. */
  readonly postInsetMm: number
}

/** @see FACTS 4.2 and 4.3: hotkilns.com/node/4550, 3rdcoastclay.com; wall, post gap and nesting: common practice, no source */
export const DEFAULT_CLEARANCES: Clearances = {
  glazeGapMm: 6,
  bisqueGapMm: 0,
  wallMm: 25,
  postMm: 6,
  headspaceMm: 12,
  lidMm: 12,
  keepOutMm: 25,
  nestMm: 3,
  postInsetMm: 30,
}

/** A kiln as the packer sees it. */
export type KilnSpace = {
  readonly chamber: Chamber
  readonly furniture: Furniture
  readonly clearances: Clearances
  /** Ware the kiln takes at most; absent: not limited. */
  readonly maxWareKg?: number
}

/** Turns a piece allows on the shelf: any, quarter turns, half turns, or none. */
export type Rotation = 'any' | 'quarter' | 'half' | 'none'

/** How pieces may share a spot in a bisque load. A glaze load ignores all of it but `lidOf`. */
export type Stacking = {
  /** Pieces on or in it at most, counted through the whole pile; 0: it stands alone. */
  readonly maxAbove: number
  readonly maxMassAboveKg: number
  /** What its top offers: nothing; a rim, for its like turned rim to rim; a flat face, for what lies within its outline. */
  readonly top: 'none' | 'rim' | 'flat'
  /** The clear room inside, and the height of its floor over its foot; absent: nothing nests in it. */
  readonly hollow?: { readonly footprint: Footprint; readonly floorMm: number }
  /** Standing on edge: the outline and height it then has. */
  readonly onEdge?: { readonly footprint: Footprint; readonly heightMm: number }
}

/** Stands alone on its foot. */
export const NO_STACKING: Stacking = { maxAbove: 0, maxMassAboveKg: 0, top: 'none' }

/** A piece (or room kept for one) to be loaded, at its size going in. */
export type LoadItem = {
  /** Unique in one call. */
  readonly key: string
  readonly footprint: Footprint
  readonly heightMm: number
  readonly massKg: number
  /** True: it goes in this load or the load does not stand. False: it fills room that is left. */
  readonly mustGo: boolean
  /** Members of one group (a set, a pot and its lid) go in one load or stay out together. */
  readonly group?: string
  readonly stacking: Stacking
  readonly rotation: Rotation
  /** A wide flat: stands on one shelf, never across the joint of two. */
  readonly wholeShelf?: boolean
  /** The piece it rides on as a lid; `heightMm` is then what stands above that piece's rim. */
  readonly lidOf?: string
  /** Peak temperatures it can be fired to. */
  readonly firing?: { readonly lowC: number; readonly highC: number }
  /** Among fillers the more urgent goes first; default 0. */
  readonly urgency?: number
}

export type LoadKind = 'bisque' | 'glaze'

export type PlacedShelf = {
  readonly shelfId: string
  readonly xMm: number
  readonly yMm: number
  readonly angleIndex: number
}

/** A post, or several on one another, from the level below (or the floor) up to the level it belongs to. */
export type PlacedPost = {
  readonly postIds: readonly string[]
  readonly xMm: number
  readonly yMm: number
  readonly fromZMm: number
  readonly lengthMm: number
}

export type Pose = 'upright' | 'inverted' | 'on-edge'

export type Placement = {
  readonly key: string
  readonly xMm: number
  readonly yMm: number
  readonly angleIndex: number
  /** Underside of the piece over the floor of the kiln. */
  readonly zMm: number
  readonly pose: Pose
  /** The piece it stands on or in, and how; absent: it stands on the shelf. */
  readonly onTopOf?: { readonly key: string; readonly how: 'nested' | 'rim' | 'flat' | 'lid' }
}

/** One shelf, or several at the same height in one column, with the posts under it and the ware on it. */
export type LoadLevel = {
  readonly shelves: readonly PlacedShelf[]
  /** The posts that carry it: three a shelf, which neighbours may share. */
  readonly posts: readonly PlacedPost[]
  /** Upper face over the floor of the kiln. */
  readonly zMm: number
  /** Upper face to the upper face of the next level above it, or to the lid. */
  readonly pitchMm: number
  /** Height that ware may take here: pitch less the shelf above, less headspace. */
  readonly usableHeightMm: number
  readonly placements: readonly Placement[]
}

export type Load = {
  readonly kind: LoadKind
  /** Bottom up, then by column: the order of loading. */
  readonly levels: readonly LoadLevel[]
  /** Fillers that did not go in, each with its reason. */
  readonly leftOut: readonly LeftOut[]
}

export type LeftOut = { readonly key: string; readonly reason: Reason }

export type FitEffort = 'bound' | 'quick' | 'thorough'

/**
 * `impossible` is proved and may enter a proof; `not-found` says only that this effort found no load for the subset.
 * At effort `bound` no load is sought, so a case not refuted is `not-found`.
 */
export type FitAnswer =
  | { readonly answer: 'fits'; readonly load: Load }
  | { readonly answer: 'impossible'; readonly subset: readonly string[]; readonly reason: Reason }
  | { readonly answer: 'not-found'; readonly subset: readonly string[] }
