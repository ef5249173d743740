/** Ramps and holds. */
import { z } from 'zod'
import type { ConeType } from '#core/firing/cones.ts'
import type { FiringKind, FiringSchedule } from '#core/firing/types.ts'
import { cone } from './cone.ts'
import { addFaults } from './fault.ts'
import type { Fault } from './fault.ts'
import { id, listOf, oneOf, quantity, record, whole, words } from './fields.ts'
import type { Frozen } from './frozen.ts'

export const firingKinds = ['bisque', 'glaze'] as const satisfies readonly FiringKind[]
export const coneTypes = ['self-supporting', 'large', 'small'] as const satisfies readonly ConeType[]

export const firingSegment = record('a segment of a firing', {
  rateCPerH: quantity('The rate of a segment', '°C per hour', 1, 3_000),
  targetC: quantity('The target of a segment', '°C', 20, 1_450),
  holdMin: whole('The hold of a segment', 'minutes', 0, 2_880),
})

export const firingScheduleRecord = record('a firing schedule', {
  id: id('The id of the firing schedule'),
  name: words('The name of the firing schedule'),
  kind: oneOf('The kind of firing', firingKinds),
  cone: z.exactOptional(cone('The cone of the schedule')),
  coneType: z.exactOptional(oneOf('The kind of witness cone', coneTypes)),
  segments: listOf('segments', firingSegment, 1, 30),
  coolingSegments: z.exactOptional(listOf('segments of controlled cooling', firingSegment, 0, 30)),
}).superRefine((schedule, context) => addFaults(context, segmentFaults(schedule)))

function segmentFaults({
  segments,
  coolingSegments = [],
}: Pick<FiringSchedule, 'segments' | 'coolingSegments'>): Fault[] {
  const fromTop = [...segments.slice(-1), ...coolingSegments]
  return [
    ...segments.flatMap(({ targetC }, index) =>
      index === 0 || targetC > segments[index - 1]!.targetC
        ? []
        : [
            {
              path: ['segments', index, 'targetC'],
              message: 'A segment must lead above the one before it; what falls again belongs to coolingSegments',
            },
          ],
    ),
    ...coolingSegments.flatMap(({ targetC }, index) =>
      targetC < fromTop[index]!.targetC
        ? []
        : [
            {
              path: ['coolingSegments', index, 'targetC'],
              message: 'Controlled cooling must lead below what comes before it',
            },
          ],
    ),
  ]
}

export type FiringScheduleRecord = Frozen<z.infer<typeof firingScheduleRecord>>
