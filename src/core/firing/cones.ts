import { coneTable } from './coneTable.ts'

/** A cone by its number; the leading zero counts: 05 and 5 are about 155 °C apart. */
export type Cone = (typeof coneTable)[number][0]

/** How the witness cone stands. Each kind has its own temperatures. */
export type ConeType = 'self-supporting' | 'large' | 'small'

/** All cones in rising order of heat work: 022 first, 14 last. */
export const cones: readonly Cone[] = coneTable.map((row) => row[0])

/** Narrows a text as typed ("06", "5 1/2") to a cone; "6" and "06" are two cones. */
export const isCone = (text: string): text is Cone => cones.includes(text as Cone)

/** Negative when `a` asks for less heat work than `b`, 0 when they are one cone. For sorting. */
export const compareCones = (a: Cone, b: Cone): number => cones.indexOf(a) - cones.indexOf(b)
