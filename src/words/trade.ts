/** The trade's words for what the core keeps as short codes. */
import type { CoverKind, Firmness } from '#core/drying/types.ts'
import type { LossCause } from '#core/logbook/entry.ts'
import type { CostName } from '#core/planning/plan.ts'
import type { HandWork } from '#core/studio/studio.ts'

/** How ware waits, as in "it waits open". */
export const coverTexts: Readonly<Record<CoverKind, string>> = {
  open: 'open',
  cloth: 'under cloth or paper',
  loose: 'under loose plastic',
  tucked: 'under tucked plastic',
  sealed: 'sealed',
  'damp cupboard': 'in the damp cupboard',
}

/** What hands do to bring it under that cover. */
export const coverDeeds: Readonly<Record<CoverKind, string>> = {
  open: 'uncover it',
  cloth: 'lay cloth or paper over it',
  loose: 'lay plastic over it loosely',
  tucked: 'tuck plastic round it',
  sealed: 'seal it',
  'damp cupboard': 'put it into the damp cupboard',
}

export const firmnessTexts: Readonly<Record<Firmness, string>> = {
  soft: 'soft leather hard',
  'leather hard': 'leather hard',
  firm: 'stiff leather hard',
  chalky: 'chalky',
  'bone dry': 'bone dry',
}

export const workTexts: Readonly<Record<HandWork, string>> = {
  slab: 'slab work',
  join: 'joining',
  surface: 'surface work',
  glaze: 'glazing',
  kiln: 'kiln work',
  finish: 'finishing',
}

export const lossTexts: Readonly<Record<LossCause, string>> = {
  cracked: 'cracked',
  warped: 'warped',
  broken: 'broken',
  burst: 'burst in the kiln',
  'glaze fault': 'glaze fault',
  other: 'something else',
}

/** What a plan is weighed by, in the order of its levels. */
export const costTexts: Readonly<Record<CostName, string>> = {
  wareLost: 'pieces under way that would be lost',
  lateWeight: 'pieces late, by their weight',
  changes: 'changes to today and tomorrow',
  firings: 'firings',
  energyKwh: 'energy, kWh',
  sessions: 'blocks of work and set-ups',
  thinWindows: 'runs with a thin window',
  tightDates: 'piece-days short of time to make a lost piece again',
  standingDays: 'days that finished ware stands about',
}
