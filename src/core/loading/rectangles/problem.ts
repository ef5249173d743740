/** Rectangles to be cut from, or set on, as few equal plates as can be: slabs, rectangular shelves. */
export type RectangleProblem = {
  /** Any one unit of length serves, as long as all sides are in it; mm in the product. */
  readonly plateLengthMm: number
  readonly plateWidthMm: number
  readonly rectangles: readonly Rectangle[]
  /** Whether a rectangle may be turned by a quarter; clay rolled one way, or a pattern, forbids it. */
  readonly mayTurn: boolean
}

export type Rectangle = { readonly lengthMm: number; readonly widthMm: number }

/** Where a rectangle lies: its corner nearest the plate's own origin. */
export type RectanglePlace = {
  /** Index into `rectangles`. */
  readonly rectangle: number
  readonly xMm: number
  readonly yMm: number
  readonly isTurned: boolean
}

/** The problem in flat arrays, as the search reads it. */
export type Sizes = {
  readonly plateLength: number
  readonly plateWidth: number
  readonly lengths: Float64Array
  readonly widths: Float64Array
  readonly areas: Float64Array
  readonly mayTurn: boolean
}

export function sizesOf(problem: RectangleProblem): Sizes {
  const { rectangles, plateLengthMm, plateWidthMm, mayTurn } = problem
  return {
    plateLength: plateLengthMm,
    plateWidth: plateWidthMm,
    lengths: Float64Array.from(rectangles, ({ lengthMm }) => lengthMm),
    widths: Float64Array.from(rectangles, ({ widthMm }) => widthMm),
    areas: Float64Array.from(rectangles, ({ lengthMm, widthMm }) => lengthMm * widthMm),
    mayTurn,
  }
}
