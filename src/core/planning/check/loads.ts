/** What stands in a kiln: that it can stand so, and that clay and glaze stand the heat. */
import { compareCones, isCone } from '#core/firing/cones.ts'
import { checkLoad } from '#core/loading/checkLoad.ts'
import type { LoadItem } from '#core/loading/types.ts'
import { clayOf, loadItem } from '../facts/pieces.ts'
import type { PlannedFiring } from '../plan.ts'
import type { Check, Found, Ground } from './ground.ts'
import { membersOf } from './ground.ts'

export const loadsStand: Check = {
  name: 'a load stands as drawn',
  breachesOf: (ground) =>
    ground.plan.firings.flatMap((firing): Found[] => {
      const { load, id, kind, underWay } = firing
      if (!load) return underWay ? [] : [{ firing: id, code: 'no-load' }]
      const kiln = ground.kilns.get(firing.kilnId)!
      const breaches = checkLoad(kiln.space, itemsOf(ground, firing), kind, load)
      const otherKind = load.kind === kind ? [] : [{ firing: id, code: 'wrong-kind' }]
      return [...otherKind, ...breaches.map(({ code, params }) => ({ ...params, firing: id, code }))]
    }),
}

/** Every piece that goes in, at its size going in; all must. */
function itemsOf({ studio, designs }: Ground, firing: PlannedFiring): readonly LoadItem[] {
  const runIds = [...new Set(firing.members.map(({ runId }) => runId!))]
  return runIds.flatMap((runId) => {
    const design = designs.get(firing.members.find((member) => member.runId === runId)!.designId)!
    return Array.from({ length: membersOf(firing, runId) }, (_, index) =>
      loadItem(studio, design, firing.kind, runId, index + 1, true),
    )
  })
}

export const heatSuitsTheWare: Check = {
  name: 'clay and glaze suit the cone they are fired to',
  breachesOf: (ground) =>
    ground.plan.firings
      .filter(({ underWay }) => !underWay)
      .flatMap(({ id, kind, scheduleId, members }): Found[] => {
        const cone = ground.schedules.get(scheduleId)?.cone
        if (!cone) return []
        return members.flatMap(({ designId, glazeId }): Found[] => {
          const clay = clayOf(ground.studio, ground.designs.get(designId)!)
          const glaze = ground.studio.glazes.find((one) => one.id === glazeId)
          const clayFits = !clay || isBetween(cone, kind === 'glaze' ? clay.coneLow : '', clay.coneHigh)
          const glazeFits = kind === 'bisque' || !glaze || isBetween(cone, glaze.coneLow, glaze.coneHigh)
          return [
            ...(clayFits ? [] : [{ firing: id, what: clay!.id, cone }]),
            ...(glazeFits ? [] : [{ firing: id, what: glaze!.id, cone }]),
          ]
        })
      }),
}

/** An end that is no cone is no limit: many fire by temperature. */
const isBetween = (cone: string, low: string, high: string): boolean =>
  !isCone(cone) || ((!isCone(low) || compareCones(low, cone) <= 0) && (!isCone(high) || compareCones(cone, high) <= 0))
