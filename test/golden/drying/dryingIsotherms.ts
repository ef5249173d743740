/**
 * Measured equilibrium moisture of unfired clay building bricks at 23 to 25 °C on drying, percent of dry mass, by
 * relative humidity in percent. Source: M. Haerder, master thesis (measured isotherms of bricks NF and 3DF). The fits are
 * least squares to the whole drying branch, `rmse` in kg/kg.
 */
export const dryingIsotherms = [
  {
    sample: 'NF',
    oswin: { A: 0.01668, B: 0.3516, rmse: 0.00249 },
    gab: { monolayerDb: 0.0149, C: 5.05, K: 0.7113, rmse: 0.00048 },
    points: [
      [90, 3.8853],
      [85, 3.3581],
      [80, 2.9814],
      [75, 2.7283],
      [70, 2.4792],
      [65, 2.2483],
      [60, 2.033],
      [55, 1.8405],
      [50, 1.6696],
      [45, 1.5165],
      [40, 1.3822],
      [35, 1.2555],
      [30, 1.0934],
      [25, 0.9555],
      [20, 0.8162],
      [15, 0.6468],
      [10, 0.4503],
      [5, 0.2525],
      [0, 0.2093],
    ],
  },
  {
    sample: '3DF',
    oswin: { A: 0.02183, B: 0.3644, rmse: 0.00376 },
    gab: { monolayerDb: 0.02212, C: 3.58, K: 0.6935, rmse: 0.00087 },
    points: [
      [90, 5.2688],
      [85, 4.6132],
      [80, 4.0549],
      [75, 3.6902],
      [70, 3.3334],
      [65, 2.9936],
      [60, 2.6612],
      [55, 2.3736],
      [50, 2.141],
      [45, 1.9386],
      [40, 1.7524],
      [35, 1.5667],
      [30, 1.3455],
      [25, 1.1704],
      [20, 0.9857],
      [15, 0.788],
      [10, 0.5646],
      [5, 0.3221],
      [0, 0.2573],
    ],
  },
] as const
