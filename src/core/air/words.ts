import type { Air, AirWord } from './types.ts'

/** A word for air with how far the real air may lie from it. Values are assumptions (a heated, a usual, a cellar room). */
export type WordedAir = Omit<Air, 'airSpeedMS'> & { readonly tempSpreadK: number; readonly rhSpread: number }

const words: Readonly<Record<AirWord, WordedAir>> = {
  dry: { tempC: 21, rh: 0.35, tempSpreadK: 2.5, rhSpread: 0.07 },
  normal: { tempC: 20, rh: 0.5, tempSpreadK: 2.5, rhSpread: 0.08 },
  damp: { tempC: 17, rh: 0.7, tempSpreadK: 2.5, rhSpread: 0.07 },
}

/** The air that a word stands for. */
export const threeWordAir = (word: AirWord): WordedAir => words[word]
