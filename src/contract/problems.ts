/** What a parse found wrong, each with its place written as it is looked up by hand: `designs[2].parts[0].thicknessMm`. */
import type { z } from 'zod'

export type Problem = { readonly path: string; readonly message: string }

export function problemsOf(error: z.ZodError): Problem[] {
  return error.issues.flatMap((issue) =>
    issue.code === 'unrecognized_keys'
      ? issue.keys.map((key) => ({ path: placeOf([...issue.path, key]), message: issue.message }))
      : [{ path: placeOf(issue.path), message: issue.message }],
  )
}

/** @param path keys and indices from the outside in; empty means the whole */
export function placeOf(path: readonly PropertyKey[]): string {
  return path.reduce<string>((place, step) => {
    if (typeof step === 'number') return `${place}[${step}]`
    const key = String(step)
    if (!/^[\p{L}_$][\p{L}\p{N}_$]*$/u.test(key)) return `${place}[${JSON.stringify(key)}]`
    return place === '' ? key : `${place}.${key}`
  }, '')
}
