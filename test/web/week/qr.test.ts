import jsQR from 'jsqr'
import { expect, test } from 'vitest'
import { squareOf } from '../../../src/web/week/qr.ts'
import { boardLabels, runAddress } from '../../../src/web/week/runCard.ts'
import { aPlan } from '../../support/planBuilders.ts'
import { handPlan } from '../../support/handPlan.ts'

/** As a camera sees it: every module eight pixels wide. */
function picture({ side, path }: ReturnType<typeof squareOf>) {
  const scale = 8
  const width = side * scale
  const pixels = new Uint8ClampedArray(width * width * 4).fill(255)
  for (const [, x, y] of path.matchAll(/M(\d+) (\d+)h1v1h-1z/g))
    for (let dy = 0; dy < scale; dy++)
      for (let dx = 0; dx < scale; dx++) {
        const at = ((Number(y) * scale + dy) * width + Number(x) * scale + dx) * 4
        pixels.fill(0, at, at + 3)
      }
  return { pixels, width }
}

// The reader is another library than the writer (jsqr 1.4.0).
test.each(['run-mugs-1', 'run/with#odd%signs/ü', `part-of-${'x'.repeat(120)}`])(
  'the square of “%s” is read as its address',
  (runId) => {
    const address = `http://192.168.0.20:4600${runAddress(runId)}`
    const { pixels, width } = picture(squareOf(address))
    expect(jsQR(pixels, width, width)?.data).toBe(address)
    expect(new URLSearchParams(new URL(address).search).get('run')).toBe(runId)
  },
)

test('every board that stands now has a label; boards to come have none', () => {
  const run = { ...handPlan.runs[0]!, underWay: true }
  const board = { spotId: 'rack', boardCount: 2, fromMin: 0, toMin: 100 }
  const runs = [
    { ...run, id: 'two', boards: [board, { ...board, boardCount: 5, fromMin: 100, toMin: 200 }] },
    { ...run, id: 'new', underWay: false, boards: [board] },
  ]
  expect(boardLabels(aPlan({ runs }), 50).map(({ runId, board }) => [runId, board])).toEqual([
    ['two', 'board 1 of 2'],
    ['two', 'board 2 of 2'],
  ])
  expect(boardLabels(aPlan({ runs }), 300)).toEqual([])
})
