/** The answers of somebody new, as they are typed, and what is sent of them. */
import type { Beginning } from '#contract/beginning.ts'
import type { Units } from '#words/context.ts'
import { typedLengthMm, typedMassKg, typedNumber } from '#words/typed.ts'

export const dayNames = {
  MO: 'Monday',
  TU: 'Tuesday',
  WE: 'Wednesday',
  TH: 'Thursday',
  FR: 'Friday',
  SA: 'Saturday',
  SU: 'Sunday',
} as const satisfies Record<Beginning['makingDays'][number], string>

export const airNames = {
  dry: 'Dry: washing dries overnight',
  normal: 'Middling',
  damp: 'Damp: a cellar, a rainy coast',
} as const satisfies Record<Beginning['air'], string>

export const buildNames = {
  box: 'Sides joined on a base',
  cylinder: 'A wall rolled up on a round base',
  slab: 'One slab shaped over a form',
} as const satisfies Record<Beginning['piece']['build'], string>

/** Everything as text, so that nothing that was typed is lost while it cannot be read. */
export type Answers = {
  readonly makerName: string
  readonly studioName: string
  readonly makingDays: readonly Beginning['makingDays'][number][]
  readonly makingFrom: string
  readonly makingTo: string
  readonly lookInsFrom: string
  readonly lookInsTo: string
  readonly kilnWatchFrom: string
  readonly kilnWatchTo: string
  readonly air: Beginning['air']
  readonly clay: string
  readonly kiln: Beginning['kiln']
  readonly glazeCone: Beginning['glazeCone']
  readonly pieceName: string
  readonly build: Beginning['piece']['build']
  readonly length: string
  readonly width: string
  readonly height: string
  readonly thickness: string
  readonly cutMin: string
  readonly buildMin: string
  readonly finishMin: string
  readonly orderName: string
  readonly count: string
  readonly dueDate: string
}

export const usualAnswers = (units: Units): Answers => ({
  makerName: '',
  studioName: '',
  makingDays: ['MO', 'WE', 'FR', 'SA'],
  makingFrom: '09:30',
  makingTo: '14:30',
  lookInsFrom: '18:00',
  lookInsTo: '21:30',
  kilnWatchFrom: '07:00',
  kilnWatchTo: '22:00',
  air: 'normal',
  clay: units === 'us' ? '100' : '50',
  kiln: 'middling round',
  glazeCone: '6',
  pieceName: '',
  build: 'box',
  length: '',
  width: '',
  height: '',
  thickness: units === 'us' ? '1/4' : '6',
  cutMin: '5',
  buildMin: '15',
  finishMin: '6',
  orderName: '',
  count: '',
  dueDate: '',
})

/** What cannot be read as a number goes as it was typed: the server then says in its own words what it must be. */
export function beginningOf(answers: Answers, zone: string, units: Units): unknown {
  const { makerName, studioName, makingDays, air, kiln, glazeCone, build, length } = answers
  const lengthMm = (text: string) => readOr(typedLengthMm(text, units), text)
  const count = (text: string) => readOr(typedNumber(text), text)
  return {
    studioName: studioName.trim() === '' ? `${makerName.trim()}’s studio` : studioName,
    makerName,
    zone,
    makingDays,
    making: { from: answers.makingFrom, to: answers.makingTo },
    lookIns: { from: answers.lookInsFrom, to: answers.lookInsTo },
    kilnWatch: { from: answers.kilnWatchFrom, to: answers.kilnWatchTo },
    air,
    clayKg: readOr(typedMassKg(answers.clay, units), answers.clay),
    kiln,
    glazeCone,
    piece: {
      name: answers.pieceName,
      build,
      lengthMm: lengthMm(length),
      widthMm: lengthMm(build === 'cylinder' ? length : answers.width),
      heightMm: lengthMm(answers.height),
      thicknessMm: lengthMm(answers.thickness),
      cutMin: count(answers.cutMin),
      buildMin: count(answers.buildMin),
      finishMin: count(answers.finishMin),
    },
    order: { name: answers.orderName, count: count(answers.count), dueDate: answers.dueDate },
  }
}

const readOr = (value: number, text: string): number | string => (Number.isFinite(value) ? value : text)
