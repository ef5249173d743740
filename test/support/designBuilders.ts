/** Clay and designs for tests. */
import type { ClayDrying } from '#core/drying/types.ts'
import { NO_STACKING } from '#core/loading/types.ts'
import type { ClayBody, Design, DesignPart, DesignStep } from '#core/studio/studio.ts'

const plus = (value: number, spread: number) => ({ value, spread, kind: 'plus' }) as const
const times = (value: number, spread: number) => ({ value, spread, kind: 'times' }) as const

/** Spreads are narrow: a test that asks about chance sets its own. Values: the usual ones of a stoneware body. */
export function someClayDrying(given: Partial<ClayDrying> = {}): ClayDrying {
  return {
    startMoistureDb: plus(0.25, 0.005),
    endOfShrinkageDb: plus(0.14, 0.004),
    oswinA: times(0.017, 0.1),
    oswinB: plus(0.38, 0.01),
    wetDiffusivityM2S: times(1e-8, 0.3),
    diffusivityFall: plus(4.6, 0.3),
    vapourPermeability: times(2e-11, 0.3),
    rimFactor: times(1.6, 0.1),
    feelShiftDb: plus(0, 0.005),
    ...given,
  }
}

export function aClay(given: Partial<ClayBody> = {}): ClayBody {
  return {
    id: 'stoneware',
    name: 'Grey stoneware',
    drying: someClayDrying(),
    shrinkage: { length: { dryingRatio: 0.06, bisqueRatio: 0.005, glazeRatio: 0.06 } },
    coneLow: '5',
    coneHigh: '7',
    onHandKg: 200,
    deliveries: [],
    ...given,
  }
}

export function aPart(given: Partial<DesignPart> = {}): DesignPart {
  return {
    id: 'base',
    name: 'Base',
    countPerPiece: 1,
    lengthMm: 240,
    widthMm: 160,
    thicknessMm: 7,
    templateState: 'fresh',
    middleStaysIn: false,
    ...given,
  }
}

export function aStep(given: Partial<DesignStep> = {}): DesignStep {
  return {
    id: 'cut',
    kind: 'cut',
    name: 'Roll and cut',
    needs: 'slab',
    setupMin: 10,
    minPerPiece: 8,
    band: null,
    partIds: [],
    mouldId: null,
    ...given,
  }
}

/** Cut, join at leather hard, glaze, finish, pack. */
export const traySteps: readonly DesignStep[] = [
  aStep(),
  aStep({
    id: 'join',
    kind: 'join',
    name: 'Join',
    needs: 'join',
    minPerPiece: 15,
    band: { from: 'leather hard', to: 'firm' },
  }),
  aStep({ id: 'glaze', kind: 'glaze', name: 'Glaze', needs: 'glaze', setupMin: 15, minPerPiece: 5 }),
  aStep({
    id: 'finish',
    kind: 'finish',
    name: 'Grind feet and look over',
    needs: 'finish',
    setupMin: 5,
    minPerPiece: 2,
  }),
  aStep({ id: 'pack', kind: 'pack', name: 'Pack', needs: 'finish', setupMin: 5, minPerPiece: 3 }),
]

/** A tray of 240 x 160 x 40 mm from five parts, joined once. */
export function aDesign(given: Partial<Design> = {}): Design {
  return {
    id: 'tray',
    name: 'Tray',
    clayId: 'stoneware',
    outline: 'rectangle',
    lengthMm: 240,
    widthMm: 160,
    heightMm: 40,
    cornerRadiusMm: 5,
    parts: [
      aPart(),
      aPart({ id: 'long-side', name: 'Long side', countPerPiece: 2, lengthMm: 240, widthMm: 40 }),
      aPart({ id: 'short-side', name: 'Short side', countPerPiece: 2, lengthMm: 160, widthMm: 40 }),
    ],
    steps: traySteps,
    evenOutHours: { least: 24, most: 96 },
    slowDryHours: 24,
    thickestMm: 9,
    closedForm: false,
    piecesPerBoard: 3,
    mostPerRun: 12,
    bisqueScheduleId: 'bisque-06',
    glazeScheduleId: 'glaze-6',
    glazeIds: ['white'],
    glazePerPieceL: 0.12,
    losses: { dryingRatio: 0.04, bisqueRatio: 0.01, glazeRatio: 0.03, secondRatio: 0.05, correlation: 0.1 },
    stacking: NO_STACKING,
    turnsFreely: true,
    ...given,
  }
}
