/** Equal circles in the least round container, of radius 1 here: `count` circles of `radius` with these middles. */
export type KnownLayout = {
  readonly count: number
  readonly radius: number
  readonly centres: readonly (readonly [number, number])[]
}

/** Circles of radius 1 on a ring about the middle touch each other when the ring's radius is 1 / sin(180 degrees / n). */
const ringRadius = (count: number): number => 1 / Math.sin(Math.PI / count)

const onRing = (count: number, radius: number, fromTurn = 0): [number, number][] =>
  Array.from({ length: count }, (_, k) => {
    const angle = 2 * Math.PI * (fromTurn + k / count)
    return [radius * Math.cos(angle), radius * Math.sin(angle)]
  })

const inUnitContainer = (container: number, centres: readonly (readonly [number, number])[]): KnownLayout => ({
  count: centres.length,
  radius: 1 / container,
  centres: centres.map(([x, y]) => [x / container, y / container]),
})

/**
 * Proved optimal, by elementary geometry: rings of 2 to 6, six about one, and twelve about six about one, whose
 * container is 1 + sqrt(2) + sqrt(6) times as wide as a circle.
 * @see Kravitz (1967), Math. Mag. 40, 65-71 (2 to 7); Fodor (1999), Geom. Dedicata 74, 139-145 (19)
 */
export const knownLayouts: readonly KnownLayout[] = [
  ...[2, 3, 4, 5, 6].map((count) => inUnitContainer(1 + ringRadius(count), onRing(count, ringRadius(count)))),
  inUnitContainer(3, [[0, 0], ...onRing(6, 2)]),
  inUnitContainer(1 + Math.SQRT2 + Math.sqrt(6), [
    [0, 0],
    ...onRing(6, 2),
    ...onRing(12, Math.SQRT2 + Math.sqrt(6), 1 / 24),
  ]),
]
