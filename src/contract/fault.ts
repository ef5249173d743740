/** What is wrong with a record although each of its fields is right. */
import type { z } from 'zod'

/** `path` leads from the record in question to the place at fault. */
export type Fault = { readonly path: readonly (string | number)[]; readonly message: string }

export function addFaults(context: z.RefinementCtx, faults: readonly Fault[]): void {
  for (const { path, message } of faults) context.addIssue({ code: 'custom', path: [...path], message })
}
