/** Two kilns of the example on one supply that carries one of them at a time, and what they fire. */
import type { FiringScheduleRecord } from '#contract/firingSchedule.ts'
import type { KilnRecord, SupplyRecord } from '#contract/kiln.ts'
import { usualSchedules } from '#core/firing/usualSchedules.ts'
import { usualKiln } from '#core/studio/usualKilns.ts'

export const exampleSupplies: readonly SupplyRecord[] = [{ id: 'kiln-shed', name: 'Kiln shed', kilnsAtOnce: 1 }]

export const exampleKilns: readonly KilnRecord[] = [
  { id: 'round', name: 'Round kiln', supplyId: 'kiln-shed', ...usualKiln('middling round') },
  { id: 'square', name: 'Square kiln', supplyId: 'kiln-shed', ...usualKiln('square') },
]

/** A gentle bisque for thick ware, a usual one, and one glaze firing. */
export const exampleFiringSchedules: readonly FiringScheduleRecord[] = usualSchedules
  .filter(({ id }) => id === 'slow-bisque-06' || id === 'medium-bisque-06' || id === 'medium-glaze-6')
  .map((schedule) => ({ ...schedule, id: schedule.id! }))
