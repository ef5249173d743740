import type { Answer, Feasibility } from './feasibility.ts'

/** Assumptions that cannot hold together; minimal if each was proved to be needed. */
export type Core = { readonly assumptions: readonly number[]; readonly isMinimal: boolean }

/**
 * Shrinks a conflict by deletion: without each member in turn, is the rest still impossible? A proof that it is names
 * what it used, and drops the others at once.
 * @see Chinneck & Dravnieks (1991), Locating minimal infeasible constraint sets, ORSA J. Computing 3
 */
export function shrinkCore(
  feasibility: Feasibility,
  first: readonly number[],
  limits: { conflicts: number; cancelled: () => boolean },
): Core {
  let core = first
  let isMinimal = true
  for (const member of first) {
    if (!core.includes(member)) continue
    const answer: Answer = feasibility.test(
      core.filter((one) => one !== member),
      limits,
    )
    if (answer.kind === 'impossible') core = answer.core
    if (answer.kind === 'open') isMinimal = false
  }
  return { assumptions: core, isMinimal }
}
