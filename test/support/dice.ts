import type { Rng } from '#core/rng.ts'

/** What tests ask of chance. */
export type Dice = {
  readonly chance: (odds: number) => boolean
  readonly one: <const Face>(faces: readonly Face[]) => Face
  /** A whole number, ends included. */
  readonly between: (least: number, most: number) => number
  /** Any number between, to three digits. */
  readonly of: (least: number, most: number) => number
  /** As often nothing as something. */
  readonly maybe: <const Face>(face: Face) => Face | null
}

export function dice(rng: Rng): Dice {
  return {
    chance: (odds) => rng.next() < odds,
    one: (faces) => faces[rng.int(faces.length)]!,
    between: (least, most) => least + rng.int(most - least + 1),
    of: (least, most) => Number((least + rng.next() * (most - least)).toPrecision(3)),
    maybe: (face) => (rng.next() < 0.5 ? face : null),
  }
}
