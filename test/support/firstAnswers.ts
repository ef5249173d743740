import type { Beginning } from '#contract/beginning.ts'

/** What somebody with one kiln and one design answers at the beginning. */
export const firstAnswers: Beginning = {
  studioName: 'Back room',
  makerName: 'Nell',
  zone: 'Europe/London',
  makingDays: ['MO', 'WE', 'SA'],
  making: { from: '09:30', to: '13:30' },
  lookIns: { from: '19:00', to: '21:00' },
  kilnWatch: { from: '07:00', to: '22:00' },
  air: 'normal',
  clayKg: 50,
  kiln: 'middling round',
  glazeCone: '6',
  piece: {
    name: 'Butter dish',
    build: 'box',
    lengthMm: 180,
    widthMm: 110,
    heightMm: 60,
    thicknessMm: 6,
    cutMin: 4,
    buildMin: 15,
    finishMin: 6,
  },
  order: { name: 'Aunt Mary', count: 4, dueDate: '2026-04-06' },
}
