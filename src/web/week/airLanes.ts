/** The air of every spot by days, as bars: humidity as a band as wide as it may stray, and the words for it. */
import type { DayAir } from '#core/air/dayAir.ts'
import type { Minute } from '#core/time.ts'
import { MIN_PER_DAY } from '#core/units.ts'
import { deltaTemperatureText, temperatureText } from '#words/amounts.ts'
import type { Context, Units } from '#words/context.ts'
import { capital, dayText } from '#words/times.ts'
import type { Studio } from '../data/queries.ts'
import type { Ground } from './ground.ts'
import type { Bar, Lane } from './lane.ts'

type AirView = { readonly studio: Studio; readonly ground: Ground | undefined; readonly context: Context }

const spotName = ({ spots }: Studio, spotId: string | null): string =>
  spotId === null ? 'Outdoors' : (spots.find(({ id }) => id === spotId)?.name ?? spotId)

/** Of each day, from midnight to midnight. */
export const airLanes = ({ studio, ground, context }: AirView): Lane[] =>
  (ground?.air ?? []).map(({ spotId, days }) => ({
    key: `air ${spotId}`,
    name: spotName(studio, spotId),
    bars: days.map((day, i): Bar => {
      const { startMin, rhLow, rhHigh, rhSpread } = day
      return {
        key: `air ${spotId} ${startMin}`,
        kind: 'air',
        startMin,
        endMin: days[i + 1]?.startMin ?? startMin + MIN_PER_DAY,
        label: airText(day, context.units),
        shares: { low: Math.max(0, rhLow - rhSpread), high: Math.min(1, rhHigh + rhSpread) },
      }
    }),
  }))

/** "18 °C ±1, 62 % ±7": middle of the day and one standard deviation. */
export const airText = ({ tempC, tempSpreadK, rh, rhSpread }: DayAir, units: Units): string =>
  `${temperatureText(tempC, units)} ±${deltaTemperatureText(tempSpreadK, units)}, ${percent(rh)} % ±${percent(rhSpread)}`

const percent = (share: number): number => Math.round(share * 100)

export type AirRow = { readonly key: string; readonly said: string }

/** The same as a list: a line for each spot, with what is known of it and its days. */
export const airList = (
  { studio, ground, context }: AirView,
  { fromMin, toMin }: { readonly fromMin: Minute; readonly toMin: Minute },
): AirRow[] =>
  (ground?.air ?? []).map(({ spotId, isRead, days }) => {
    const shown = days.filter(({ startMin }) => startMin >= fromMin && startMin < toMin)
    const said = shown.map((day) => {
      const { tempLowC, tempHighC, rhLow, rhHigh } = day
      const hours = `${temperatureText(tempLowC, context.units)} to ${temperatureText(tempHighC, context.units)} and ${percent(rhLow)} to ${percent(rhHigh)} % by the hour`
      return `${capital(dayText(day.startMin, context))} ${airText(day, context.units)} (${hours})`
    })
    const source = isRead ? 'from what was read there' : 'from a word, nothing is read there'
    return { key: String(spotId), said: `${spotName(studio, spotId)}, ${source}: ${said.join('; ')}.` }
  })
