/** The functions of the reference library for moist air that our tests ask; it brings no types of its own. */
declare module 'psychrolib' {
  const psychrolib: {
    readonly SI: number
    SetUnitSystem(system: number): void
    GetHumRatioFromRelHum(tempC: number, rh: number, pressurePa: number): number
    GetRelHumFromHumRatio(tempC: number, humidityRatio: number, pressurePa: number): number
  }
  export default psychrolib
}
