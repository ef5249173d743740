/** An oven scheduling instance: jobs of one family may share an oven if their processing times can agree. */
export type OvenInstance = {
  readonly horizon: number
  readonly ovens: readonly Oven[]
  readonly jobs: readonly Job[]
  /** By family before, by family after; from 0. */
  readonly setupTimes: readonly (readonly number[])[]
  readonly setupCosts: readonly (readonly number[])[]
  readonly weights: { readonly runtime: number; readonly late: number; readonly setupCost: number }
}

export type Oven = {
  readonly capacity: number
  readonly initialFamily: number
  readonly shifts: readonly { readonly start: number; readonly end: number }[]
}

export type Job = {
  /** From 0. */
  readonly ovens: readonly number[]
  readonly release: number
  readonly due: number
  readonly least: number
  readonly most: number
  readonly size: number
  readonly family: number
}

/**
 * Reads a `.dzn` file of the oven scheduling problem.
 * @see Lackner, Mrkvicka, Musliu, Walkiewicz, Winter (2023), Exact methods for the oven scheduling problem, Constraints 28
 */
export function readOvens(text: string): OvenInstance {
  const valueOf = new Map(
    text
      .split(';')
      .map((line) => line.split('='))
      .filter((parts) => parts.length === 2)
      .map(([name, value]) => [name!.trim(), value!.trim()]),
  )
  const cell = (name: string): string => {
    const value = valueOf.get(name)
    if (value === undefined) throw new RangeError(`the instance says nothing of ${name}`)
    return value
  }
  const number = (name: string) => Number(cell(name))
  const list = (name: string) => numbersIn(cell(name))
  const matrix = (name: string) => cell(name).replace('[|', '').replace('|]', '').split('|').map(numbersIn)
  const sets = (name: string) => (cell(name).match(/\{[^}]*\}/g) ?? []).map(numbersIn)
  if (number('mult_factor_total_setuptimes') !== 0) throw new RangeError('set-up times are not weighed here')

  const [capacities, families] = [list('max_cap'), list('initState')]
  const [starts, ends] = [matrix('m_a_s'), matrix('m_a_e')]
  const [releases, dues, least, most] = [list('earliest_start'), list('latest_end'), list('min_time'), list('max_time')]
  const [sizes, attributes] = [list('size'), list('attribute')]
  return {
    horizon: number('l'),
    ovens: capacities.map((capacity, oven) => ({
      capacity,
      initialFamily: families[oven]! - 1,
      shifts: starts[oven]!.map((start, shift) => ({ start, end: ends[oven]![shift]! })).filter(
        ({ start, end }) => end > start,
      ),
    })),
    jobs: sets('eligible_machine').map((ovens, job) => ({
      ovens: ovens.map((oven) => oven - 1),
      release: releases[job]!,
      due: dues[job]!,
      least: least[job]!,
      most: most[job]!,
      size: sizes[job]!,
      family: attributes[job]! - 1,
    })),
    setupTimes: matrix('setup_times'),
    setupCosts: matrix('setup_costs'),
    weights: {
      runtime: number('mult_factor_total_runtime'),
      late: number('mult_factor_finished_toolate'),
      setupCost: number('mult_factor_total_setupcosts'),
    },
  }
}

const numbersIn = (text: string): number[] => (text.match(/-?\d+/g) ?? []).map(Number)
