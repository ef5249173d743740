/** Two kilns of the example on one supply that carries one of them at a time, and what they fire. */
import type { FiringScheduleRecord } from '#contract/firingSchedule.ts'
import type { KilnRecord, SupplyRecord } from '#contract/kiln.ts'
import { usualKilnFiring } from '#core/firing/kilnSizes.ts'
import { usualSchedules } from '#core/firing/usualSchedules.ts'
import { DEFAULT_CLEARANCES } from '#core/loading/types.ts'

export const exampleSupplies: readonly SupplyRecord[] = [{ id: 'kiln-shed', name: 'Kiln shed', kilnsAtOnce: 1 }]

const posts = (lengthsMm: readonly number[], count: number) =>
  lengthsMm.map((lengthMm) => ({ id: `post-${lengthMm}`, lengthMm, section: 'square' as const, sizeMm: 32, count }))

export const exampleKilns: readonly KilnRecord[] = [
  {
    id: 'round',
    name: 'Round kiln',
    supplyId: 'kiln-shed',
    space: {
      chamber: { shape: { kind: 'round', diameterMm: 580 }, heightMm: 690, keepOuts: [] },
      furniture: {
        shelves: [
          {
            id: 'full',
            shape: { kind: 'round', diameterMm: 530, share: 'full' },
            thicknessMm: 19,
            massKg: 8.5,
            count: 5,
          },
          {
            id: 'half',
            shape: { kind: 'round', diameterMm: 530, share: 'half' },
            thicknessMm: 19,
            massKg: 4.2,
            count: 4,
          },
        ],
        posts: posts([50, 75, 100, 125, 150, 225], 12),
      },
      clearances: DEFAULT_CLEARANCES,
    },
    firing: usualKilnFiring({
      insideWidthMm: 580,
      insideDepthMm: 580,
      insideHeightMm: 690,
      isRound: true,
      wallMm: 76,
      powerKw: 11.5,
      maxTempC: 1_290,
    }),
    fires: ['bisque', 'glaze'],
    loadMin: 60,
    unloadMin: 45,
  },
  {
    id: 'square',
    name: 'Square kiln',
    supplyId: 'kiln-shed',
    space: {
      chamber: { shape: { kind: 'rectangular', lengthMm: 460, widthMm: 460 }, heightMm: 600, keepOuts: [] },
      furniture: {
        shelves: [
          {
            id: 'plate',
            shape: { kind: 'rectangular', lengthMm: 405, widthMm: 405, share: 'full' },
            thicknessMm: 17,
            massKg: 6.2,
            count: 6,
          },
        ],
        posts: posts([50, 75, 100, 125, 225], 12),
      },
      clearances: DEFAULT_CLEARANCES,
    },
    firing: usualKilnFiring({
      insideWidthMm: 460,
      insideDepthMm: 460,
      insideHeightMm: 600,
      isRound: false,
      wallMm: 100,
      powerKw: 9,
      maxTempC: 1_300,
    }),
    fires: ['bisque', 'glaze'],
    loadMin: 45,
    unloadMin: 35,
  },
]

/** A gentle bisque for thick ware, a usual one, and one glaze firing. */
export const exampleFiringSchedules: readonly FiringScheduleRecord[] = usualSchedules
  .filter(({ id }) => id === 'slow-bisque-06' || id === 'medium-bisque-06' || id === 'medium-glaze-6')
  .map((schedule) => ({ ...schedule, id: schedule.id! }))
