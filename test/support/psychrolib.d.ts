/** The few functions of the library that tests compare with; it brings no types of its own. */
declare module 'psychrolib' {
  type OfTwo = (tempC: number, rh: number) => number
  type OfThree = (tempC: number, rh: number, pressurePa: number) => number
  const library: {
    readonly SI: number
    readonly SetUnitSystem: (system: number) => void
    readonly GetSatVapPres: (tempC: number) => number
    readonly GetHumRatioFromRelHum: OfThree
    readonly GetTWetBulbFromRelHum: OfThree
    readonly GetTDewPointFromRelHum: OfTwo
  }
  export default library
}
