import type { DesignRecord } from '#contract/design.ts'
import type { Dice } from './dice.ts'
import { aDesign, aPart, aStep } from './designBuilders.ts'

/** One to six designs: trays joined once, boxes joined twice, plates over a hump, dishes of one slab that is not worked again. */
export function randomDesigns(die: Dice): DesignRecord[] {
  return Array.from({ length: die.between(1, 6) }, (_, index) => {
    const make = die.one([tray, box, plate, dish])
    const thicknessMm = die.of(5, 9)
    return {
      ...make(die, thicknessMm),
      id: `design-${index}`,
      name: `Design ${index}`,
      clayId: 'clay',
      glazeIds: ['white', 'green', 'blue'],
      bisqueScheduleId: die.one(['slow-bisque-06', 'medium-bisque-06', 'medium-bisque-06']),
      glazeScheduleId: die.one(['medium-glaze-6', 'medium-glaze-6', 'slow-glaze-6']),
      evenOutHours: { least: die.between(0, 48), most: die.between(72, 168) },
      slowDryHours: die.between(0, 48),
      thickestMm: die.of(thicknessMm, thicknessMm + 5),
      mostPerRun: die.between(4, 16),
    }
  })
}

const leatherHard = { from: 'leather hard', to: 'firm' } as const

const fired = [
  aStep({ id: 'glaze', kind: 'glaze', name: 'Glaze', needs: 'glaze', minPerPiece: 4 }),
  aStep({ id: 'finish', kind: 'finish', name: 'Finish', needs: 'finish', setupMin: 5, minPerPiece: 1.5 }),
  aStep({ id: 'pack', kind: 'pack', name: 'Pack', needs: 'finish', setupMin: 5, minPerPiece: 2 }),
]

const joinStep = (die: Dice, id: string) =>
  aStep({
    id,
    kind: 'join',
    name: `Join, ${id}`,
    needs: 'join',
    setupMin: 5,
    minPerPiece: die.between(4, 18),
    band: leatherHard,
  })

function tray(die: Dice, thicknessMm: number): DesignRecord {
  const [lengthMm, widthMm] = [die.between(120, 280), die.between(90, 180)]
  return aDesign({
    lengthMm,
    widthMm,
    heightMm: die.between(20, 60),
    cornerRadiusMm: 5,
    parts: [
      aPart({ lengthMm, widthMm, thicknessMm }),
      aPart({ id: 'sides', name: 'Sides', countPerPiece: 4, lengthMm: widthMm, widthMm: 40, thicknessMm }),
    ],
    steps: [aStep(), joinStep(die, 'sides'), ...fired],
    piecesPerBoard: die.between(1, 4),
  })
}

function box(die: Dice, thicknessMm: number): DesignRecord {
  const sideMm = die.between(60, 140)
  return aDesign({
    lengthMm: sideMm,
    widthMm: sideMm,
    heightMm: die.between(60, 180),
    cornerRadiusMm: 2,
    parts: [
      aPart({ lengthMm: sideMm, widthMm: sideMm, thicknessMm }),
      aPart({ id: 'sides', name: 'Sides', countPerPiece: 4, lengthMm: sideMm, widthMm: sideMm, thicknessMm }),
      aPart({ id: 'knob', name: 'Knob', lengthMm: 30, widthMm: 15, thicknessMm }),
    ],
    steps: [aStep(), { ...joinStep(die, 'sides'), partIds: ['base', 'sides'] }, joinStep(die, 'knob'), ...fired],
    closedForm: die.chance(0.3),
    piecesPerBoard: die.between(2, 6),
  })
}

function plate(die: Dice, thicknessMm: number): DesignRecord {
  const diameterMm = die.between(120, 240)
  const onHump = { needs: 'slab', setupMin: 5, minPerPiece: 3, mouldId: 'hump' } as const
  return aDesign({
    outline: 'round',
    lengthMm: diameterMm,
    widthMm: diameterMm,
    heightMm: 25,
    cornerRadiusMm: 0,
    parts: [aPart({ id: 'slab', name: 'Slab', lengthMm: diameterMm, widthMm: diameterMm, thicknessMm })],
    steps: [
      aStep(),
      aStep({ ...onHump, id: 'drape', kind: 'drape', name: 'Drape', band: { from: 'soft', to: 'leather hard' } }),
      aStep({ ...onHump, id: 'release', kind: 'release', name: 'Release', band: leatherHard }),
      ...fired,
    ],
    piecesPerBoard: die.between(1, 3),
  })
}

function dish(die: Dice, thicknessMm: number): DesignRecord {
  const [lengthMm, widthMm] = [die.between(90, 160), die.between(60, 90)]
  return aDesign({
    outline: 'oval',
    lengthMm,
    widthMm,
    heightMm: 22,
    cornerRadiusMm: 0,
    parts: [aPart({ lengthMm, widthMm, thicknessMm })],
    steps: [aStep({ minPerPiece: 3 }), ...fired],
    piecesPerBoard: die.between(4, 10),
  })
}
