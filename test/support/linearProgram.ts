import loadHighs from 'highs'

/** A sum of weighed variables and a constant. */
export type Sum = { readonly terms: ReadonlyMap<string, number>; readonly constant: number }

export const nothing: Sum = { terms: new Map(), constant: 0 }

export function plus(...sums: readonly Sum[]): Sum {
  const terms = new Map<string, number>()
  for (const sum of sums) {
    for (const [name, weight] of sum.terms) terms.set(name, (terms.get(name) ?? 0) + weight)
  }
  return { terms, constant: sums.reduce((all, { constant }) => all + constant, 0) }
}

export const times = (factor: number, { terms, constant }: Sum): Sum => ({
  terms: new Map([...terms].map(([name, weight]) => [name, factor * weight])),
  constant: factor * constant,
})

export const constantly = (constant: number): Sum => ({ terms: new Map(), constant })
export const minus = (a: Sum, b: Sum): Sum => plus(a, times(-1, b))

/** Linear constraints over 0-1 variables and others >= 0, as a general solver reads them. */
export type LinearProgram = {
  readonly yesOrNo: () => Sum
  readonly atLeast0: () => Sum
  /** sum <= limit */
  readonly demand: (sum: Sum, limit: number) => void
  /** The least the sum can be; undefined if the constraints cannot hold. */
  readonly least: (sum: Sum) => number | undefined
}

const highs = await loadHighs()
const EXACT = { mip_rel_gap: 0, mip_abs_gap: 1e-6 }

/** @see Huangfu & Hall (2018), Parallelizing the dual revised simplex method (HiGHS) */
/** @param presolve whether the solver may first make the problem smaller: quicker, and at times wrong */
export function linearProgram(presolve: boolean): LinearProgram {
  const rows: string[] = []
  const whole: string[] = []
  let variables = 0
  let isImpossible = false
  const fresh = (): Sum => ({ terms: new Map([[`v${variables++}`, 1]]), constant: 0 })
  return {
    yesOrNo: () => {
      whole.push(`v${variables}`)
      return fresh()
    },
    atLeast0: fresh,
    demand: (sum, limit) => {
      const text = written(sum)
      if (text === '') isImpossible ||= sum.constant > limit
      else rows.push(`r${rows.length}: ${text} <= ${limit - sum.constant}`)
    },
    least: (sum) => {
      if (isImpossible) return undefined
      // A model needs at least one variable and one row.
      const program = [
        `Minimize`,
        `cost: ${written(sum) || '0 w'}`,
        `Subject To`,
        `w: w <= 1`,
        ...rows,
        `Binary`,
        ...whole,
        `End`,
      ].join('\n')
      const { Status, ObjectiveValue } = solved(program, presolve)
      if (Status === 'Infeasible') return undefined
      if (Status !== 'Optimal') throw new Error(`the general solver says ${Status}`)
      return Math.round(ObjectiveValue + sum.constant)
    },
  }
}

/** Its presolve at times fails, or calls impossible what is not, so either is only taken without it. */
function solved(program: string, presolve: boolean) {
  const slowly = () => highs.solve(program, { ...EXACT, presolve: 'off' })
  if (!presolve) return slowly()
  try {
    const quick = highs.solve(program, EXACT)
    return quick.Status === 'Infeasible' ? slowly() : quick
  } catch {
    return slowly()
  }
}

const written = ({ terms }: Sum): string =>
  [...terms]
    .flatMap(([name, weight]) => (weight === 0 ? [] : [`${weight < 0 ? '-' : '+'} ${Math.abs(weight)} ${name}`]))
    .join(' ')
