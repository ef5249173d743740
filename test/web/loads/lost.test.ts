import { expect, test } from 'vitest'
import type { LossRecord } from '#core/logbook/state.ts'
import { lostTexts } from '../../../src/web/loads/lost.ts'
import { aStudioFile } from '../../support/recordBuilders.ts'

const firing = {
  kind: 'bisque',
  unloadedMin: 900,
  members: [{ runId: 'run', designId: 'tray', glazeId: null, count: 8 }],
} as const
const loss = (given: Partial<LossRecord> = {}): LossRecord => ({
  minute: 900,
  designId: 'tray',
  stage: 'in bisque',
  count: 2,
  cause: 'cracked',
  ...given,
})

test('a firing is charged with what was lost of its ware when it was emptied, and with nothing else', () => {
  const others = [
    loss({ minute: 899 }),
    loss({ stage: 'clay' }),
    loss({ stage: 'in glaze' }),
    loss({ designId: 'box' }),
  ]
  expect(lostTexts(firing, [loss(), ...others], aStudioFile())).toEqual(['2 Trays: cracked'])
  expect(lostTexts(firing, [loss({ count: 1, cause: null })], aStudioFile())).toEqual(['1 Tray'])
})
