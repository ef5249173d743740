import { describe, expect, test } from 'vitest'
import { outlineOf } from '#core/loading/outline.ts'
import { shelfRegion } from '#core/loading/region.ts'
import { shapeAt } from '#core/loading/shape.ts'
import { bedOf, missEnergy } from '#core/loading/squeeze/bed.ts'
import { crowdOf, overlapEnergy } from '#core/loading/squeeze/crowd.ts'
import { descend, descentRoom, type Energy } from '#core/loading/squeeze/descend.ts'
import { packCircles } from '#core/loading/squeeze/packCircles.ts'
import { squeeze } from '#core/loading/squeeze/squeeze.ts'
import { circleFootprint, ovalFootprint, rectangleFootprint } from '#core/loading/footprint.ts'
import { seededRng } from '#core/rng.ts'
import { layoutBreaches, withOneGrown } from '../../../scripts/bench/circleLoad.ts'
import { knownLayouts } from '../../golden/loading/circleLayouts.ts'
import { run as soakSqueeze } from '../../soak/squeeze.ts'

const oblong = shelfRegion({ kind: 'rectangular', lengthMm: 300, widthMm: 200, share: 'full' }, 0, 0, 0)

/** Largest difference between a slope and the one measured by small steps either way. */
function slopeError(energy: Energy, x: Float64Array): number {
  const slope = new Float64Array(x.length)
  const scratch = new Float64Array(x.length)
  energy(x, slope)
  const step = 1e-5
  return Math.max(
    ...x.map((_, i) => {
      const [more, less] = [x.slice(), x.slice()]
      more[i] = x[i]! + step
      less[i] = x[i]! - step
      return Math.abs((energy(more, scratch) - energy(less, scratch)) / (2 * step) - slope[i]!)
    }),
  )
}

describe('the descent', () => {
  test('follows the curved valley of Rosenbrock (1960), Computer J. 3, 175-184, to its end at (1, 1)', () => {
    const valley: Energy = (x, slope) => {
      const [a, b] = [x[0]!, x[1]!]
      slope[0] = -400 * a * (b - a * a) - 2 * (1 - a)
      slope[1] = 200 * (b - a * a)
      return 100 * (b - a * a) ** 2 + (1 - a) ** 2
    }
    const x = Float64Array.of(-1.2, 1)
    descend(valley, x, { iterations: 200, enough: 1e-20, leastGain: 0, longestStep: 10 }, descentRoom(2))
    expect(x[0]).toBeCloseTo(1, 8)
    expect(x[1]).toBeCloseTo(1, 8)
  })

  test('of pieces on a shelf goes by their true slope', () => {
    const rng = seededRng(4)
    const region = shelfRegion({ kind: 'round', diameterMm: 260, share: 'half' }, 0, 0, 0)
    const outlines = [rectangleFootprint(90, 60, 8), ovalFootprint(110, 70), circleFootprint(80)].map(outlineOf)
    const pieces = outlines.map((outline) => ({ outline, rotation: 'any' as const, region }))
    const post = shapeAt(outlineOf(rectangleFootprint(38, 38)), 0)
    const bed = bedOf({ pieces, obstacles: [{ shape: post, xMm: 20, yMm: 40, gapMm: 6 }], gapMm: 6 })
    bed.weights.forEach((_, k) => (bed.weights[k] = 1 + rng.next()))
    for (let k = 0; k < 40; k++) {
      const x = new Float64Array(9).map((_, i) => (i % 3 === 0 ? 200 * (rng.next() - 0.5) : 120 * rng.next()))
      expect(slopeError((at, slope) => missEnergy(bed, at, slope), x)).toBeLessThan(1e-3)
    }
  })

  test('of circles in a container goes by their true slope, the container a variable too', () => {
    const rng = seededRng(5)
    const crowd = crowdOf(Float64Array.of(0.6, 0.8, 1, 1.6))
    crowd.price = 0.3
    for (let k = 0; k < 40; k++) {
      const x = new Float64Array(9).map((_, i) => (i === 8 ? 2.5 : 5 * (rng.next() - 0.5)))
      expect(slopeError((at, slope) => overlapEnergy(crowd, at, slope), x)).toBeLessThan(1e-6)
    }
  })
})

describe('the squeeze', () => {
  test('gives only what the load checker finds clear, at turns that are allowed', () => {
    expect(soakSqueeze(200, 3)).toMatchObject({ failures: 0 })
  })

  const four = [
    rectangleFootprint(146, 96),
    rectangleFootprint(146, 96),
    rectangleFootprint(146, 96),
    circleFootprint(96),
  ]
  const task = {
    pieces: four.map((footprint) => ({ outline: outlineOf(footprint), rotation: 'any' as const, region: oblong })),
    obstacles: [],
    gapMm: 6,
  }

  test('finds the one way in which four pieces fill a shelf, a hair off square at most', () => {
    // 2 x 146 + 6 = 298 of 300 mm along, 2 x 96 + 6 = 198 of 200 mm across; 2 mm in 146 are three quarters of a degree.
    const stances = squeeze(task, [undefined, undefined, undefined, undefined], { seed: 2, descents: 2_000 })
    const offSquare = stances?.slice(0, 3).map(({ angleIndex }) => Math.min(angleIndex % 720, 720 - (angleIndex % 720)))
    expect(Math.max(...offSquare!)).toBeLessThanOrEqual(3)
  })

  test('gives the same answer again, and leaves alone what is clear', () => {
    const search = { seed: 8, descents: 500 }
    const once = squeeze(task, [undefined, undefined, undefined, undefined], search)
    expect(squeeze(task, [undefined, undefined, undefined, undefined], search)).toEqual(once)
    expect(squeeze(task, once!, { seed: 1, descents: 1 })).toEqual(once)
  })

  test('finds nothing where nothing can be', () => {
    const pieces = [120, 120, 120].map((sideMm) => ({
      outline: outlineOf(rectangleFootprint(sideMm, sideMm)),
      rotation: 'none' as const,
      region: shelfRegion({ kind: 'rectangular', lengthMm: 250, widthMm: 150, share: 'full' }, 0, 0, 0),
    }))
    expect(
      squeeze({ pieces, obstacles: [], gapMm: 0 }, [undefined, undefined, undefined], { seed: 1, descents: 50 }),
    ).toBe(undefined)
  })
})

describe.each(knownLayouts)('$count equal circles in a round container', ({ count, radius, centres }) => {
  const layout = { radii: centres.map(() => radius), centres }

  test('pass the load checker as known, and fail it when one is larger by a millionth', () => {
    expect(layoutBreaches(layout)).toEqual([])
    expect(layoutBreaches(withOneGrown(layout, 1e-6)).length).toBeGreaterThan(0)
  })

  test('are packed as well as is known', () => {
    const found = packCircles(layout.radii, { seed: 1, hops: 200 })
    expect(found.centres).toHaveLength(count)
    expect(found.radius).toBeGreaterThan(1 - 1e-9)
    expect(found.radius).toBeLessThan(1 + 2e-5)
  })
})
