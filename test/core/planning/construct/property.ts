import * as fc from 'fast-check'
import { test as vitestTest } from 'vitest'

/** A property that holds for 200 generated cases from a fixed seed. */
export function test<A, B, C>(
  name: string,
  a: fc.Arbitrary<A>,
  b: fc.Arbitrary<B>,
  c: fc.Arbitrary<C>,
  holds: (a: A, b: B, c: C) => boolean,
): void {
  vitestTest(name, () => fc.assert(fc.property(a, b, c, holds), { numRuns: 200, seed: 20_260 }))
}

export { fc }
