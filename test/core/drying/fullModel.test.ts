import { describe, expect, test } from 'vitest'
import { trajectory } from '#core/drying/fullModel.ts'
import { oswinMoistureDb } from '#core/drying/isotherm.ts'
import type { CoverSpan, PartClass } from '#core/drying/types.ts'
import { fallsTo, moistureAt } from '#core/drying/windows.ts'
import { aPart, roomAir, spans, steadyAir, usualDraw } from '../../support/dryingBuilders.ts'
import { referenceCurves } from '../../golden/drying/referenceCurves.ts'
import { scenarios } from '../../golden/drying/scenarios.ts'

const DAY_MIN = 1440

function dried(part: PartClass, under: readonly CoverSpan[], toMin: number, airOfSpot = steadyAir()) {
  return trajectory({ part, spans: under, airOfSpot, draw: usualDraw, toMin })
}

test.each(referenceCurves)(
  '$thicknessMm mm, $board, $cover: within 0.002 of a stiff solver',
  ({ thicknessMm, board, cover, points }) => {
    const { minute, meanDb, tempC } = dried({ thicknessMm, board }, spans([0, cover]), points.at(-1)![0] * 60)
    for (const [hour, wantedDb, , , wantedC] of points) {
      expect(Math.abs(moistureAt(minute, meanDb, hour * 60) - wantedDb)).toBeLessThan(0.002)
      expect(Math.abs(moistureAt(minute, tempC, hour * 60) - wantedC)).toBeLessThan(0.35)
    }
  },
)

describe('scenarios of an independent solver, to 4 %', () => {
  // Covers tighter than a tuck take half a year: running them adds nothing to the tuck.
  test.each(scenarios.filter(({ permeance }) => permeance > 1e-10))(
    '$name $thicknessMm mm $rh $tempC °C $airSpeedMS m/s',
    (scenario) => {
      const { thicknessMm, tempC, rh, airSpeedMS, board, permeance, changed, hours } = scenario
      const draw = { ...usualDraw, ...changed, permeance: { ...usualDraw.permeance, loose: permeance } }
      const cover = Number.isFinite(permeance) ? 'loose' : 'open'
      const { minute, meanDb } = trajectory({
        part: { thicknessMm, board },
        spans: spans([0, cover]),
        airOfSpot: steadyAir({ tempC, rh, airSpeedMS }),
        draw,
        toMin: 65 * DAY_MIN,
        untilDb: 0.13,
        stepMin: permeance < 1e-9 ? 60 : 15,
      })
      const levels = [0.21, 0.175, 0.15, 0.14]
      hours.forEach((wanted, i) => {
        if (wanted === null) return
        // Times are printed to a tenth of an hour.
        const tolerance = 0.04 * wanted + 0.06
        expect(Math.abs(fallsTo(minute, meanDb, levels[i]!) / 60 - wanted)).toBeLessThan(tolerance)
      })
    },
  )
})

test('fourteen days on changing air and through four covers: within 0.001 of steps going to zero', () => {
  const under = spans([0, 'open'], [300, 'loose'], [1500, 'tucked'], [4000, 'cloth'], [7000, 'open'])
  const request = {
    part: aPart({ thicknessMm: 9 }),
    spans: under,
    airOfSpot: roomAir(),
    draw: usualDraw,
    toMin: 14 * DAY_MIN,
  }
  const usual = trajectory(request)
  // Halving once more moves the finest by less than a tenth of the bound: it stands for the limit.
  const finest = trajectory({ ...request, stepMin: 1 })
  for (let minute = 30; minute < 14 * DAY_MIN; minute += 30) {
    const finestDb = moistureAt(finest.minute, finest.meanDb, minute)
    expect(Math.abs(moistureAt(usual.minute, usual.meanDb, minute) - finestDb)).toBeLessThan(0.001)
  }
})

describe('parts', () => {
  const leatherHardMin = (part: PartClass, under = spans([0, 'open'])): number => {
    const { minute, meanDb } = dried(part, under, 10 * DAY_MIN)
    return fallsTo(minute, meanDb, 0.175)
  }

  test('a rack takes from both faces, a plasterboard sucks', () => {
    // Default run: 15.4, 9.8 and 3.6 h to leather hard.
    expect(leatherHardMin(aPart()) / 60).toBeCloseTo(15.4, 0)
    expect(leatherHardMin(aPart({ board: 'rack' })) / 60).toBeCloseTo(9.8, 0)
    expect(Math.abs(leatherHardMin(aPart({ board: 'absorbent' })) / 60 - 3.6)).toBeLessThan(0.2)
  })

  test('standing dries faster than lying on a rack, a closed form slower, until its top opens', () => {
    const standing = leatherHardMin(aPart({ board: 'standing' }))
    const closed = leatherHardMin(aPart({ board: 'standing', innerFaceShare: 0.3 }))
    const opened = leatherHardMin(aPart({ board: 'standing', innerFaceShare: 0.3 }), [
      { fromMin: 0, cover: 'open', spotId: 'rack', topOpen: true },
    ])
    expect(standing).toBeLessThan(leatherHardMin(aPart({ board: 'rack' })))
    expect(closed).toBeGreaterThan(standing)
    expect(opened).toBeCloseTo(standing, 6)
  })

  test('a rim runs ahead of the middle, less so under a strip', () => {
    const bare = dried(aPart({ rim: { widthMm: 15 } }), spans([0, 'open']), 900)
    const strip = dried(aPart({ rim: { widthMm: 15, strip: 'loose' } }), spans([0, 'open']), 900)
    expect(bare.rimDb.at(-1)!).toBeLessThan(bare.meanDb.at(-1)! - 0.02)
    expect(strip.rimDb.at(-1)!).toBeGreaterThan(bare.rimDb.at(-1)! + 0.02)
    // The rim's pace sets the steps, and so the middle's last digits.
    expect(strip.meanDb.at(-1)!).toBeCloseTo(bare.meanDb.at(-1)!, 3)
  })

  test('a thin frame dries fast, with its middle in as the slab it belongs to', () => {
    const frame = { barWidthMm: 40 }
    expect(leatherHardMin(aPart({ frame: { ...frame, middleIn: true } }))).toBeCloseTo(leatherHardMin(aPart()), 6)
    expect(leatherHardMin(aPart({ frame: { ...frame, middleIn: false } }))).toBeLessThan(0.7 * leatherHardMin(aPart()))
  })

  test('the thickest spot is the last to dry', () => {
    const { thickestDb, meanDb, wettestDb } = dried(aPart({ thickestMm: 14 }), spans([0, 'open']), 3 * DAY_MIN)
    expect(thickestDb.at(-1)!).toBeGreaterThan(meanDb.at(-1)! + 0.02)
    expect(wettestDb.at(-1)!).toBeGreaterThan(thickestDb.at(-1)!)
  })
})

describe('what is done to ware', () => {
  test('turning brings the wet face up', () => {
    const turned = dried(
      aPart({ thicknessMm: 15 }),
      [...spans([0, 'open']), { fromMin: 1200, cover: 'open', spotId: 'rack', turned: true }],
      1210,
    )
    const left = dried(aPart({ thicknessMm: 15 }), spans([0, 'open']), 1210)
    expect(turned.surfaceDb.at(-1)!).toBeGreaterThan(left.surfaceDb.at(-1)! + 0.01)
    expect(turned.meanDb.at(-1)!).toBeCloseTo(left.meanDb.at(-1)!, 3)
  })

  test('water given before ware pales is taken up, afterwards it is not', () => {
    const wet = (atMin: number) =>
      dried(
        aPart(),
        [...spans([0, 'open']), { fromMin: atMin, cover: 'tucked', spotId: 'rack', dampenedKgM2: 0.2 }],
        atMin + 1,
      )
    const plain = (atMin: number) => dried(aPart(), spans([0, 'open'], [atMin, 'tucked']), atMin + 1)
    // 0.2 kg on 10.1 kg of dry clay: two points.
    expect(wet(900).meanDb.at(-1)! - plain(900).meanDb.at(-1)!).toBeCloseTo(0.0198, 3)
    expect(wet(3000).meanDb.at(-1)!).toBeCloseTo(plain(3000).meanDb.at(-1)!, 6)
  })

  test('a damp cupboard holds and evens out, and does not rewet', () => {
    const { meanDb, surfaceDb, wettestDb } = dried(
      aPart({ thicknessMm: 12 }),
      spans([0, 'open'], [1200, 'damp cupboard']),
      4 * DAY_MIN,
    )
    const { meanDb: before } = dried(aPart({ thicknessMm: 12 }), spans([0, 'open']), 1200)
    expect(meanDb.at(-1)!).toBeLessThan(before.at(-1)!)
    expect(meanDb.at(-1)!).toBeGreaterThan(before.at(-1)! - 0.02)
    expect(wettestDb.at(-1)! - surfaceDb.at(-1)!).toBeLessThan(0.003)
    // 98 to 99 % are in balance with 0.075 to 0.10, far below leather hard.
    expect(oswinMoistureDb(0.98, 0.017, 0.38)).toBeCloseTo(0.075, 2)
    expect(oswinMoistureDb(0.99, 0.017, 0.38)).toBeCloseTo(0.1, 1)
  })

  test('going on from a state is going on', () => {
    const under = spans([0, 'open'], [700, 'loose'])
    const whole = dried(aPart({ rim: { widthMm: 15 }, thickestMm: 10 }), under, 2000)
    const first = dried(aPart({ rim: { widthMm: 15 }, thickestMm: 10 }), under, 700)
    const rest = trajectory({
      part: aPart({ rim: { widthMm: 15 }, thickestMm: 10 }),
      spans: under,
      airOfSpot: steadyAir(),
      draw: usualDraw,
      toMin: 2000,
      start: first.end,
    })
    expect(rest.meanDb.at(-1)!).toBeCloseTo(whole.meanDb.at(-1)!, 4)
    expect(rest.rimDb.at(-1)!).toBeCloseTo(whole.rimDb.at(-1)!, 4)
    expect(rest.thickestDb.at(-1)!).toBeCloseTo(whole.thickestDb.at(-1)!, 4)
  })
})

describe('callers’ mistakes', () => {
  test('no spans, falling spans, air that is no number', () => {
    expect(() => dried(aPart(), [], 100)).toThrow(RangeError)
    expect(() => dried(aPart(), spans([100, 'open'], [50, 'loose']), 300)).toThrow(RangeError)
    expect(() => dried(aPart(), spans([0, 'open']), 300, steadyAir({ rh: NaN }))).toThrow(RangeError)
  })
})
