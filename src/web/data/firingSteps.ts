/** What is logged when a planned firing goes a step on. */
import type { PlannedFiring } from '#core/planning/plan.ts'
import type { Happened } from './useLog.ts'

/** @param firingId of the firing in the logbook; made on this device when it is loaded */
export function firingStep(step: 'load' | 'start' | 'open', firing: PlannedFiring, firingId: string): Happened {
  const { kilnId, kind: firingKind, scheduleId, members, candleHours } = firing
  if (step === 'load')
    return { kind: 'loaded', body: { firingId, kilnId, firingKind, scheduleId, members: [...members] } }
  return step === 'start' ? { kind: 'fired', body: { firingId, candleHours } } : { kind: 'opened', body: { firingId } }
}
