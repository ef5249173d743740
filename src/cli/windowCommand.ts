/** `window --thickness 6 --spot S [--clay C] [--at DATE …]`: how long a slab has, under each cover, side by side. */
import { wallAt } from '#app/calendar/zone.ts'
import { trajectory } from '#core/drying/fullModel.ts'
import type { CoverKind } from '#core/drying/types.ts'
import { curveOf, moistureBandOf, windowOf } from '#core/drying/windows.ts'
import { commonDraws } from '#core/planning/facts/commonDraws.ts'
import { airOfSpots } from '#core/planning/facts/spotAir.ts'
import { MIN_PER_DAY, MIN_PER_HOUR } from '#core/units.ts'
import { coverTexts } from '#words/trade.ts'
import { type Call, exitCodes, momentOf, needed, numberOf, said } from './call.ts'
import { namedOrFirst } from './named.ts'
import { caseOf } from './planning.ts'
import { studioFileOf } from './source.ts'

/** Hours after the cut; null where it does not come to it within ten days. */
export type SlabWindow = {
  readonly cover: CoverKind
  readonly at: string
  /** From leather hard to firm in the middle future. */
  readonly middleH: { readonly from: number; readonly to: number } | null
  /** When it is leather hard in the futures one in ten from either end. */
  readonly leatherHardH: { readonly soonest: number; readonly latest: number | null } | null
}

const FOLLOWED_MIN = 10 * MIN_PER_DAY

export async function windowCommand({ words, options, output }: Call): Promise<number> {
  const thicknessMm = numberOf(
    'The thickness',
    needed(said(options, 'thickness'), 'The thickness (--thickness MM)'),
    1,
    80,
    'mm',
  )
  const file = await studioFileOf(words[1], options)
  const moments = options.said['at'] as readonly string[] | undefined
  const { zone } = file.studio
  const dates = moments ?? [wallAt(options.nowIn(zone), zone)]
  const windows = dates.flatMap((at) => windowsAt(at))
  if (options.json) output.out(JSON.stringify(windows))
  else for (const line of table(thicknessMm, dates, windows)) output.out(line)
  return exitCodes.done

  function windowsAt(at: string): SlabWindow[] {
    const cutMin = momentOf(at, zone)
    const planningCase = caseOf(file, { ...options, nowIn: () => cutMin })
    const { studio } = planningCase
    const clay = namedOrFirst(studio.clays, said(options, 'clay'), 'clay')
    const spot = namedOrFirst(studio.spots, said(options, 'spot'), 'spot')
    const airOfSpot = airOfSpots({ ...planningCase, horizonMin: cutMin + FOLLOWED_MIN })
    const part = { thicknessMm, board: 'sealed' as const }
    return studio.covers.map((cover): SlabWindow => {
      const draws = commonDraws(clay, options.seed)
      const found = draws.map((draw) => {
        const band = moistureBandOf({ from: 'leather hard', to: 'firm' }, draw)
        const way = trajectory({
          part,
          spans: [{ fromMin: cutMin, cover, spotId: spot.id }],
          airOfSpot,
          draw,
          toMin: cutMin + FOLLOWED_MIN,
          untilDb: band.closeAtDb,
        })
        return windowOf([curveOf(way)], band)
      })
      const hours = (minute: number) => Math.round(((minute - cutMin) / MIN_PER_HOUR) * 10) / 10
      const sorted = found.toSorted((a, b) => a.openMin - b.openMin)
      const middle = sorted[Math.floor(sorted.length / 2)]!
      const [soonest, latest] = [
        sorted[Math.floor(sorted.length / 10)]!.openMin,
        sorted[Math.ceil(sorted.length * 0.9) - 1]!.openMin,
      ]
      return {
        cover,
        at,
        middleH: Number.isFinite(middle.openMin) ? { from: hours(middle.openMin), to: hours(middle.closeMin) } : null,
        leatherHardH: Number.isFinite(soonest)
          ? { soonest: hours(soonest), latest: Number.isFinite(latest) ? hours(latest) : null }
          : null,
      }
    })
  }
}

function table(thicknessMm: number, dates: readonly string[], windows: readonly SlabWindow[]): string[] {
  const covers = [...new Set(windows.map(({ cover }) => cover))]
  const cell = (cover: CoverKind, at: string): string => {
    const { middleH, leatherHardH } = windows.find((window) => window.cover === cover && window.at === at)!
    if (middleH === null || leatherHardH === null) return 'not in ten days'
    return `${middleH.from} to ${middleH.to} h (${leatherHardH.soonest}-${leatherHardH.latest ?? 'never'})`
  }
  return [
    `A ${thicknessMm} mm slab on a sealed board, in hours from its cut: from leather hard to firm as likely as not,`,
    'and in brackets when it may be leather hard (8 futures of 10). Look in to catch it.',
    `  ${''.padEnd(24)}${dates.map((at) => at.slice(0, 16).padEnd(30)).join('')}`.trimEnd(),
    ...covers.map((cover) =>
      `  ${coverTexts[cover].padEnd(24)}${dates.map((at) => cell(cover, at).padEnd(30)).join('')}`.trimEnd(),
    ),
  ]
}
