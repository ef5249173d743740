/** The studio itself: its name, where on earth it is, and the rules of the house. */
import type { z } from 'zod'
import { coverKinds } from '#core/drying/covers.ts'
import { id, listOf, oneOf, quantity, record, share, whole, words, yesNo } from './fields.ts'
import type { Frozen } from './frozen.ts'
import { zone } from './time.ts'

export const houseRules = record('the rules of the house', {
  leastSessionMin: whole('The shortest session worth starting', 'minutes', 5, 480),
  lookInMin: whole('The time for one look-in', 'minutes', 1, 30),
  windowOdds: share('The odds at which windows are held', 0.5, 0.99),
  glazeDryHours: quantity('The time glazed ware dries before it is loaded', 'hours', 0, 168),
  mixBisqueAndGlaze: yesNo('Whether bisque and glaze may share a load'),
  wantedFill: share('The share of a kiln worth waiting for'),
  pricePerKwh: quantity('The price of electricity', 'per kWh', 0, 1_000),
  co2KgPerKwh: quantity('The carbon of electricity', 'kg CO2 per kWh', 0, 5),
  altitudeM: quantity('The altitude', 'm', -430, 6_000),
})

export const studioRecord = record('the studio', {
  id: id('The id of the studio'),
  name: words('The name of the studio'),
  zone: zone('The time zone'),
  wareBoardCount: whole('The number of ware boards', '', 0, 10_000),
  covers: listOf('covers', oneOf('A cover', coverKinds), 1, coverKinds.length),
  rules: houseRules,
})

export type HouseRules = Frozen<z.infer<typeof houseRules>>
export type StudioRecord = Frozen<z.infer<typeof studioRecord>>
