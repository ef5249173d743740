import { defaultClay } from '#core/drying/clay.ts'
import { middleDraw, priorBeliefs } from '#core/drying/draws.ts'
import { trajectory } from '#core/drying/fullModel.ts'
import { boneDryDb } from '#core/drying/isotherm.ts'
import type { CoverKind, PartClass } from '#core/drying/types.ts'
import { fallsTo } from '#core/drying/windows.ts'

/** What the trade says, as ranges of hours; common practice, from the sources named with each. */
type TradeRule = {
  readonly says: string
  readonly source: string
  readonly lowHours: number
  readonly highHours: number
  readonly until: 'leather hard' | 'bone dry'
  readonly part: PartClass
  readonly covers: readonly (readonly [afterHours: number, cover: CoverKind])[]
  /** Where the model misses: what would explain it. */
  readonly note?: string
}

const slab = (thicknessMm: number, but: Partial<PartClass> = {}): PartClass => ({
  thicknessMm,
  board: 'sealed',
  ...but,
})

const rules: readonly TradeRule[] = [
  {
    says: 'open slab to leather hard',
    source: 'makenorth.org/hard-slabs',
    lowHours: 6,
    highHours: 20,
    until: 'leather hard',
    part: slab(6.35),
    covers: [[0, 'open']],
  },
  {
    says: '1/2 in on drywall, covered',
    source: 'talk.makeict.org',
    lowHours: 8,
    highHours: 12,
    until: 'leather hard',
    part: slab(12.7, { board: 'absorbent' }),
    covers: [[0, 'loose']],
    note: 'what the board takes is an assumption good to a factor of 2',
  },
  {
    says: 'average to leather hard',
    source: 'whyienjoy.com',
    lowHours: 24,
    highHours: 72,
    until: 'leather hard',
    part: slab(8),
    covers: [[0, 'loose']],
    note: 'what leaks is an assumption good to a factor of 4: at twice the leak it is inside',
  },
  {
    says: '1/4 in open',
    source: 'from memory',
    lowHours: 2,
    highHours: 12,
    until: 'leather hard',
    part: slab(6.35),
    covers: [[0, 'open']],
    note: 'meant for fans and plasterboard too (3.6 h on it); the first row says 6 to 20 h',
  },
  {
    says: '1/4 to 3/8 in loosely covered',
    source: 'from memory',
    lowHours: 12,
    highHours: 72,
    until: 'leather hard',
    part: slab(8),
    covers: [[0, 'loose']],
    note: 'as for the average: the leak',
  },
  {
    says: '3/8 in open',
    source: 'from memory',
    lowHours: 6,
    highHours: 24,
    until: 'leather hard',
    part: slab(9.5),
    covers: [[0, 'open']],
  },
  {
    says: 'small ware, at least two days',
    source: 'ceramics.lifetips.com 21929',
    lowHours: 48,
    highHours: 336,
    until: 'bone dry',
    part: slab(6.35),
    covers: [[0, 'open']],
  },
  {
    says: 'walls up to 1 cm, about a week',
    source: 'kummod.ch',
    lowHours: 120,
    highHours: 216,
    until: 'bone dry',
    part: slab(10),
    covers: [
      [0, 'loose'],
      [48, 'open'],
    ],
  },
  {
    says: '1-2 days under plastic, 7 days open',
    source: 'fedest.com',
    lowHours: 72,
    highHours: 216,
    until: 'bone dry',
    part: slab(9),
    covers: [
      [0, 'tucked'],
      [36, 'open'],
    ],
  },
  {
    says: 'slab ware 5-7 mm',
    source: 'from memory',
    lowHours: 72,
    highHours: 240,
    until: 'bone dry',
    part: slab(6),
    covers: [
      [0, 'loose'],
      [36, 'open'],
    ],
  },
]

/** The trade's ranges beside the model at 20 °C, 50 %, still air; misses are shown as misses. */
export function tradeTable(): string {
  const draw = middleDraw(priorBeliefs(defaultClay))
  const lines = rules.map(({ says, source, lowHours, highHours, until, part, covers, note = '' }) => {
    const path = trajectory({
      part,
      spans: covers.map(([afterHours, cover]) => ({ fromMin: afterHours * 60, cover, spotId: 'rack' })),
      airOfSpot: () => () => ({ tempC: 20, rh: 0.5, airSpeedMS: 0.1 }),
      draw,
      toMin: 60 * 24 * 60,
    })
    const series = until === 'bone dry' ? path.wettestDb : path.meanDb
    const hours = fallsTo(path.minute, series, until === 'bone dry' ? boneDryDb(draw.oswinA, draw.oswinB) : 0.175) / 60
    const verdict = hours >= lowHours && hours <= highHours ? 'in' : 'MISS'
    return `${verdict.padEnd(5)}${says.padEnd(38)}${until.padEnd(14)}trade ${lowHours}-${highHours} h, model ${hours.toFixed(1)} h (${source})${verdict === 'MISS' ? ` ${note}` : ''}`
  })
  return ['Ranges of the trade (common practice) beside the model:', ...lines].join('\n')
}
