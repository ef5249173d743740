import type { Minute } from '../time.ts'
import { drawnAir } from './drawnAir.ts'
import { indoorReadings } from './indoor.ts'
import { hourlyOutlook, type OutlookOptions } from './outlook.ts'
import type { AirNote } from './readings.ts'
import type { AirAt, AirOutlook, AirReading, AirWord, OutlookDraw, SpotAir } from './types.ts'

/** A spot as far as its air goes. */
export type SpotWithAir = { readonly id: string; readonly air: SpotAir; readonly airSpeedMS: number }

export type SpotAirsRequest = {
  readonly spots: readonly SpotWithAir[]
  /** Logs of all spots; what was read outside carries the id `OUTDOORS`. */
  readonly readings: readonly (AirReading & { readonly spotId: string })[]
  /** Forecast of the weather outside, if there is one. */
  readonly forecast?: readonly AirReading[]
  readonly fromMin: Minute
  readonly toMin: Minute
  readonly nowMin: Minute
  readonly dayOffsetMin: number
}

/** Readings with this spot id were taken outside. */
export const OUTDOORS = 'outdoors'
const STAND_IN: AirWord = 'normal'

export type SpotAirs = {
  readonly outlooks: ReadonlyMap<string, AirOutlook>
  readonly notes: readonly { readonly spotId: string; readonly note: AirNote }[]
  /** The air of a spot in one draw; a spot that is not listed has the air of the word "normal". */
  readonly airOf: (spotId: string, draw: OutlookDraw) => AirAt
}

/** The air of every spot over the log and the weeks to come, by what is known of each. */
export function spotAirs(request: SpotAirsRequest): SpotAirs {
  const outlooks = new Map<string, AirOutlook>()
  const notes: { spotId: string; note: AirNote }[] = []
  for (const spot of request.spots) {
    const made = spotOutlook(spot, request)
    outlooks.set(spot.id, made.outlook)
    notes.push(...made.notes.map((note) => ({ spotId: spot.id, note })))
  }
  const standIn = hourlyOutlook([], { ...request, airSpeedMS: 0.1, word: STAND_IN }).outlook
  const outlookOf = (spotId: string): AirOutlook => outlooks.get(spotId) ?? standIn
  return { outlooks, notes, airOf: remembered((spotId, draw) => drawnAir(outlookOf(spotId), draw)) }
}

/** The same air is asked for by every part and run: made once per spot and draw, kept as long as the draw is. */
function remembered(airOf: SpotAirs['airOf']): SpotAirs['airOf'] {
  const bySpot = new Map<string, WeakMap<OutlookDraw, AirAt>>()
  return (spotId, draw) => {
    const byDraw = bySpot.get(spotId) ?? new WeakMap<OutlookDraw, AirAt>()
    bySpot.set(spotId, byDraw)
    const known = byDraw.get(draw)
    if (known) return known
    const made = airOf(spotId, draw)
    byDraw.set(draw, made)
    return made
  }
}

function spotOutlook({ id, air, airSpeedMS }: SpotWithAir, request: SpotAirsRequest) {
  const { fromMin, toMin, nowMin, dayOffsetMin, forecast } = request
  const from = (spotId: string): AirReading[] => request.readings.filter((reading) => reading.spotId === spotId)
  const options: OutlookOptions = { fromMin, toMin, nowMin, dayOffsetMin, airSpeedMS, word: STAND_IN }
  switch (air.kind) {
    case 'word': {
      const { outlook } = hourlyOutlook([], { ...options, word: air.word })
      return { outlook, notes: [] }
    }
    case 'log':
      return hourlyOutlook(from(id), { ...options, word: air.word })
    case 'outdoors': {
      const indoorForecast = forecast && indoorReadings(forecast, air.setPointC)
      return hourlyOutlook(indoorReadings(from(OUTDOORS), air.setPointC), {
        ...options,
        ...(indoorForecast && { forecast: indoorForecast }),
      })
    }
  }
}
