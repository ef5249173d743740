/** Generic kilns. Power and sizes from retailers; brick and walls by a separate wall model; tau of the last from a maker's times. */
export const genericKilns = [
  {
    name: 'small 240 V',
    insideMm: [440, 480],
    wallMm: 76,
    powerKw: 5.5,
    tauH: 5.5,
    ventedTauH: [3.5, 4.0],
    wareKg: 9,
    furnitureKg: 7.5,
  },
  {
    name: 'studio',
    insideMm: [580, 750],
    wallMm: 76,
    powerKw: 11.52,
    tauH: 7.2,
    ventedTauH: [4.4, 5.0],
    wareKg: 25,
    furnitureKg: 21,
  },
  {
    name: 'large studio',
    insideMm: [710, 710],
    wallMm: 76,
    powerKw: 16.64,
    tauH: 8.4,
    ventedTauH: [5.0, 5.7],
    wareKg: 42,
    furnitureKg: 30,
  },
  {
    name: 'well-insulated front loader',
    insideMm: [710, 760],
    wallMm: 135,
    powerKw: 16.5,
    tauH: 17.5,
    ventedTauH: [9, 11],
    wareKg: 52,
    furnitureKg: 35,
  },
] as const

/** Metered firings. */
export const meteredFirings = [
  {
    kiln: 'small 240 V',
    toC: 999,
    hours: 10,
    load: 'full',
    kwh: [26, 29],
    source: 'I. Townshend, Clayart, 21 Jul 2001 (potters.org/subject43125), cone 06, logged',
  },
  { kiln: 'small 240 V', toC: 1260, hours: 9, load: 'full', kwh: [34, 36], source: 'the same, cone 9, faster' },
  {
    kiln: 'studio',
    toC: 1093,
    hours: 7.1,
    load: 'not said',
    kwh: [35, 35],
    source: 'jessehull.com, 13 Apr 2008, 270 °F/h to 2000 °F, separate meter',
  },
] as const

/** Closed and vented cooling of a 7 ft³ kiln with a 76 mm wall from cone 6, hours; a separate one-dimensional wall model. */
export const modelledCooling = {
  closed: { fromC: 1220, to95H: 20.1, to50H: 28.2 },
  vented: { fromC: 1220, to95H: 13.9, to50H: 19.4 },
} as const
