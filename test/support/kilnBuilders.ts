/** Kilns and firing schedules for tests. */
import type { FiringSchedule, KilnFiring } from '#core/firing/types.ts'
import { DEFAULT_CLEARANCES } from '#core/loading/types.ts'
import type { KilnSpace } from '#core/loading/types.ts'
import type { Kiln, PowerSupply } from '#core/studio/studio.ts'

export function aSupply(given: Partial<PowerSupply> = {}): PowerSupply {
  return { id: 'mains', name: 'Mains', kilnsAtOnce: 1, ...given }
}

/** 580 mm across, 690 mm high, full and half shelves, three lengths of post. */
export function aRoundKilnSpace(given: Partial<KilnSpace> = {}): KilnSpace {
  return {
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
      posts: [
        { id: 'post-75', lengthMm: 75, section: 'square', sizeMm: 32, count: 12 },
        { id: 'post-125', lengthMm: 125, section: 'square', sizeMm: 32, count: 12 },
        { id: 'post-150', lengthMm: 150, section: 'square', sizeMm: 32, count: 12 },
      ],
    },
    clearances: DEFAULT_CLEARANCES,
    ...given,
  }
}

/** 450 x 450 mm and 600 mm high. */
export function aSquareKilnSpace(given: Partial<KilnSpace> = {}): KilnSpace {
  return {
    chamber: { shape: { kind: 'rectangular', lengthMm: 450, widthMm: 450 }, heightMm: 600, keepOuts: [] },
    furniture: {
      shelves: [
        {
          id: 'plate',
          shape: { kind: 'rectangular', lengthMm: 400, widthMm: 400, share: 'full' },
          thicknessMm: 18,
          massKg: 6.5,
          count: 6,
        },
      ],
      posts: [
        { id: 'post-60', lengthMm: 60, section: 'square', sizeMm: 32, count: 12 },
        { id: 'post-120', lengthMm: 120, section: 'square', sizeMm: 32, count: 12 },
      ],
    },
    clearances: DEFAULT_CLEARANCES,
    ...given,
  }
}

/** A studio kiln of 0.2 m3 with 76 mm walls: power and cooling as computed for that size, closed. */
export function someKilnFiring(given: Partial<KilnFiring> = {}): KilnFiring {
  return {
    powerKw: 11.5,
    maxTempC: 1_290,
    ambientC: 20,
    coolingTauH: 7.2,
    ventedTauH: 4.7,
    coolsVented: false,
    brickKg: 80,
    wallLossWPerK: 3,
    lossFactor: 1.2,
    switchUpsMin: [],
    readingOffsetC: 0,
    ...given,
  }
}

export function aKiln(given: Partial<Kiln> = {}): Kiln {
  return {
    id: 'round-kiln',
    name: 'Round kiln',
    supplyId: 'mains',
    space: aRoundKilnSpace(),
    firing: someKilnFiring(),
    fires: ['bisque', 'glaze'],
    loadMin: 60,
    unloadMin: 45,
    ...given,
  }
}

/** Cone 06 in about 12 h, candling two hours at 90 °C. */
export function aBisqueSchedule(given: Partial<FiringSchedule> = {}): FiringSchedule {
  return {
    id: 'bisque-06',
    name: 'Bisque 06, medium',
    kind: 'bisque',
    cone: '06',
    segments: [
      { rateCPerH: 80, targetC: 90, holdMin: 120 },
      { rateCPerH: 80, targetC: 250, holdMin: 0 },
      { rateCPerH: 110, targetC: 900, holdMin: 0 },
      { rateCPerH: 60, targetC: 998, holdMin: 0 },
    ],
    ...given,
  }
}

/** Cone 6 in about 8 h. */
export function aGlazeSchedule(given: Partial<FiringSchedule> = {}): FiringSchedule {
  return {
    id: 'glaze-6',
    name: 'Glaze 6, medium',
    kind: 'glaze',
    cone: '6',
    segments: [
      { rateCPerH: 100, targetC: 120, holdMin: 0 },
      { rateCPerH: 200, targetC: 1_110, holdMin: 0 },
      { rateCPerH: 80, targetC: 1_214, holdMin: 15 },
    ],
    ...given,
  }
}
