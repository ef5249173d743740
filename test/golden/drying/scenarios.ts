/**
 * Hours to soft (0.21), leather hard (0.175), firm (0.15) and the end of shrinkage (0.14), computed by an independent
 * solver of the same equations with defaults unless named. Film, radiation and board were held at their values at 20 °C
 * and the speed given, so other speeds and temperatures agree to a few percent only.
 */
export type Scenario = {
  readonly name: string
  readonly thicknessMm: number
  readonly tempC: number
  readonly rh: number
  readonly airSpeedMS: number
  readonly board: 'sealed' | 'rack' | 'absorbent'
  /** Permeance of the cover, kg/(m2 s Pa); Infinity when open. */
  readonly permeance: number
  readonly changed: Changed
  readonly hours: readonly (number | null)[]
}

type Changed = {
  readonly wetDiffusivityM2S?: number
  readonly oswinA?: number
  readonly startMoistureDb?: number
}

type Row = readonly [
  name: string,
  thicknessMm: number,
  tempC: number,
  rh: number,
  airSpeedMS: number,
  board: Scenario['board'],
  permeance: number,
  hours: Scenario['hours'],
  changed?: Changed,
]

const rows: readonly Row[] = [
  ['base: sealed/wood board, open', 6.35, 20, 0.5, 0.1, 'sealed', Infinity, [8, 15.4, 20.8, 23]],
  ['open rack two-sided', 6.35, 20, 0.5, 0.1, 'rack', Infinity, [5.1, 9.8, 13.2, 14.7]],
  ['loose plastic drape 2e-9', 6.35, 20, 0.5, 0.1, 'sealed', 2e-9, [58.2, 111.4, 150.7, 166.8]],
  ['paper/cloth tent 1e-8', 6.35, 20, 0.5, 0.1, 'sealed', 1e-8, [18.7, 35.7, 48.2, 53.4]],
  ['plastic tucked 2e-10', 6.35, 20, 0.5, 0.1, 'sealed', 2e-10, [501.6, 959.9, 1299.9, 1439.1]],
  ['sealed LDPE bag 25um 3.6e-11', 6.35, 20, 0.5, 0.1, 'sealed', 3.6e-11, [2745.3, 5254.6, 7116.1, 7878.5]],
  ['thick', 3.2, 20, 0.5, 0.1, 'sealed', Infinity, [4, 7.7, 10.5, 11.6]],
  ['thick', 4.8, 20, 0.5, 0.1, 'sealed', Infinity, [6.1, 11.6, 15.7, 17.4]],
  ['thick', 9.5, 20, 0.5, 0.1, 'sealed', Infinity, [12, 23, 31.1, 34.4]],
  ['thick', 12.7, 20, 0.5, 0.1, 'sealed', Infinity, [16, 30.8, 41.6, 46.1]],
  ['thick', 19.05, 20, 0.5, 0.1, 'sealed', Infinity, [24.1, 46.2, 62.5, 69.1]],
  ['thick', 25.4, 20, 0.5, 0.1, 'sealed', Infinity, [32.1, 61.7, 83.4, 92.3]],
  ['thick rack', 9.5, 20, 0.5, 0.1, 'rack', Infinity, [7.6, 14.7, 19.8, 21.9]],
  ['thick rack', 12.7, 20, 0.5, 0.1, 'rack', Infinity, [10.2, 19.6, 26.5, 29.3]],
  ['thick rack', 25.4, 20, 0.5, 0.1, 'rack', Infinity, [20.4, 39.2, 53.1, 58.7]],
  ['RH', 6.35, 20, 0.3, 0.1, 'sealed', Infinity, [5.7, 11, 14.8, 16.4]],
  ['RH', 6.35, 20, 0.4, 0.1, 'sealed', Infinity, [6.7, 12.8, 17.3, 19.1]],
  ['RH', 6.35, 20, 0.6, 0.1, 'sealed', Infinity, [10.1, 19.3, 26.1, 28.8]],
  ['RH', 6.35, 20, 0.7, 0.1, 'sealed', Infinity, [13.5, 25.8, 34.9, 38.6]],
  ['RH', 6.35, 20, 0.8, 0.1, 'sealed', Infinity, [20.4, 38.9, 52.6, 58.1]],
  ['T', 6.35, 10, 0.5, 0.1, 'sealed', Infinity, [13.1, 25.1, 34, 37.6]],
  ['T', 6.35, 15, 0.5, 0.1, 'sealed', Infinity, [10.2, 19.5, 26.3, 29.1]],
  ['T', 6.35, 25, 0.5, 0.1, 'sealed', Infinity, [6.5, 12.4, 16.8, 18.6]],
  ['T', 6.35, 30, 0.5, 0.1, 'sealed', Infinity, [5.3, 10.3, 13.9, 15.4]],
  ['v', 6.35, 20, 0.5, 0.05, 'sealed', Infinity, [9.2, 17.7, 24, 26.5]],
  ['v', 6.35, 20, 0.5, 0.2, 'sealed', Infinity, [6.6, 12.6, 17, 18.9]],
  ['v', 6.35, 20, 0.5, 0.5, 'sealed', Infinity, [4.8, 9.2, 12.5, 13.8]],
  ['v', 6.35, 20, 0.5, 1, 'sealed', Infinity, [3.7, 7.1, 9.7, 10.7]],
  ['v', 6.35, 20, 0.5, 2, 'sealed', Infinity, [2.8, 5.5, 7.4, 8.2]],
  ['H=9.5 loose plastic', 9.5, 20, 0.5, 0.1, 'sealed', 2e-9, [87.1, 166.6, 225.4, 249.5]],
  ['D_wet 1e-09', 6.35, 20, 0.5, 0.1, 'sealed', Infinity, [8, 15.5, 21.4, 24.2], { wetDiffusivityM2S: 1e-9 }],
  ['D_wet 3e-09', 6.35, 20, 0.5, 0.1, 'sealed', Infinity, [8, 15.4, 20.8, 23], { wetDiffusivityM2S: 3e-9 }],
  ['D_wet 3e-08', 6.35, 20, 0.5, 0.1, 'sealed', Infinity, [8, 15.4, 20.8, 23], { wetDiffusivityM2S: 3e-8 }],
  ['D_wet 1e-07', 6.35, 20, 0.5, 0.1, 'sealed', Infinity, [8, 15.4, 20.8, 23], { wetDiffusivityM2S: 1e-7 }],
  ['A 0.006', 6.35, 20, 0.5, 0.1, 'sealed', Infinity, [8, 15.4, 20.7, 22.9], { oswinA: 0.006 }],
  ['A 0.012', 6.35, 20, 0.5, 0.1, 'sealed', Infinity, [8, 15.4, 20.8, 23], { oswinA: 0.012 }],
  ['A 0.03', 6.35, 20, 0.5, 0.1, 'sealed', Infinity, [8.1, 15.5, 21, 23.3], { oswinA: 0.03 }],
  ['X0 .22', 6.35, 20, 0.5, 0.1, 'sealed', Infinity, [2, 9.5, 15.1, 17.4], { startMoistureDb: 0.22 }],
  ['X0 .28', 6.35, 20, 0.5, 0.1, 'sealed', Infinity, [13.6, 20.8, 26.1, 28.3], { startMoistureDb: 0.28 }],
  ['loose cover 1e-09', 6.35, 20, 0.5, 0.1, 'sealed', 1e-9, [107.5, 205.7, 278.4, 308.2]],
  ['loose cover 4e-09', 6.35, 20, 0.5, 0.1, 'sealed', 4e-9, [33.5, 64.1, 86.7, 96]],
  ['loose cover 8e-09', 6.35, 20, 0.5, 0.1, 'sealed', 8e-9, [21.1, 40.4, 54.7, 60.5]],
  ['loose cover 1.6e-08', 6.35, 20, 0.5, 0.1, 'sealed', 1.6e-8, [14.9, 28.5, 38.6, 42.6]],
  ['drywall sink k=0.25 kg/m2h cap 2 kg/m2 Xmin .15', 6.35, 20, 0.5, 0.1, 'absorbent', Infinity, [1.4, 3.6, 6.9, null]],
  ['drywall sink k=0.25 kg/m2h cap 2 kg/m2 Xmin .15', 12.7, 20, 0.5, 0.1, 'absorbent', Infinity, [3.2, 9, 16.4, null]],
  ['drywall sink k=0.25 kg/m2h cap 2 kg/m2 Xmin .15', 6.35, 20, 0.5, 0.1, 'absorbent', 4e-9, [1.7, 4.8, 13, null]],
  ['drywall sink k=0.25 kg/m2h cap 2 kg/m2 Xmin .15', 12.7, 20, 0.5, 0.1, 'absorbent', 4e-9, [4, 14, 37.4, null]],
]

export const scenarios: readonly Scenario[] = rows.map(
  ([name, thicknessMm, tempC, rh, airSpeedMS, board, permeance, hours, changed = {}]) => ({
    name,
    thicknessMm,
    tempC,
    rh,
    airSpeedMS,
    board,
    permeance,
    hours,
    changed,
  }),
)
