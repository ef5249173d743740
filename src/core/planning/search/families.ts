import type { Setup } from './problem.ts'

/** The families of a kiln, those in one class asking the same set-ups before and after every other. */
export type Families = {
  readonly classOf: (familyId: string) => number
  readonly classCount: number
  /** Between families in turn; undefined where neither time nor cost is asked. */
  readonly setupOf: (fromId: string | undefined, toId: string) => Setup | undefined
  /** Between classes in turn. */
  readonly setupBetween: (from: number, to: number) => Setup | undefined
}

export function familiesOf(familyIds: readonly string[], setups: readonly Setup[]): Families {
  const from = new Map<string, Map<string, Setup>>()
  for (const setup of setups) {
    const to = from.get(setup.fromFamilyId) ?? new Map<string, Setup>()
    from.set(setup.fromFamilyId, to.set(setup.toFamilyId, setup))
  }
  const setupOf: Families['setupOf'] = (fromId, toId) =>
    fromId === undefined ? undefined : from.get(fromId)?.get(toId)
  const distinct = [...new Set(familyIds)]
  const asked = (setup: Setup | undefined) => `${setup?.minutes ?? 0}:${setup?.cost ?? 0}`
  const signatureOf = (id: string) =>
    setups.length === 0
      ? ''
      : distinct.map((other) => `${asked(setupOf(id, other))} ${asked(setupOf(other, id))}`).join()
  const signatures = new Map(distinct.map((id) => [id, signatureOf(id)]))
  const classes = [...new Set(signatures.values())]
  const classOfId = new Map(distinct.map((id) => [id, classes.indexOf(signatures.get(id)!)]))
  const exampleOf = classes.map((signature) => distinct.find((id) => signatures.get(id) === signature)!)
  return {
    classOf: (familyId) => classOfId.get(familyId)!,
    classCount: classes.length,
    setupOf,
    setupBetween: (first, second) => setupOf(exampleOf[first]!, exampleOf[second]!),
  }
}
