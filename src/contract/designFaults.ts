/** What can be wrong with a design although each of its fields is right. */
import { firmnesses } from '#core/drying/clay.ts'
import type { Design, DesignStep } from '#core/studio/studio.ts'
import type { Fault } from './fault.ts'

type Checked = Pick<
  Design,
  'name' | 'outline' | 'lengthMm' | 'widthMm' | 'cornerRadiusMm' | 'parts' | 'steps' | 'evenOutHours'
>

export function designFaults(design: Checked): Fault[] {
  return [
    ...outlineFaults(design),
    ...restFaults(design),
    ...repeated('parts', design),
    ...repeated('steps', design),
    ...stepFaults(design),
  ]
}

function outlineFaults({ outline, lengthMm, widthMm, cornerRadiusMm }: Checked): Fault[] {
  const faults: Fault[] = []
  if (outline === 'round' && lengthMm !== widthMm)
    faults.push({
      path: ['widthMm'],
      message: `A round piece is as wide as it is long (${lengthMm} mm); for others choose oval`,
    })
  if (2 * cornerRadiusMm > Math.min(lengthMm, widthMm))
    faults.push({
      path: ['cornerRadiusMm'],
      message: 'The radius of the corners must not exceed half of the shorter side',
    })
  return faults
}

function restFaults({ evenOutHours: { least, most } }: Checked): Fault[] {
  if (least <= most) return []
  return [
    {
      path: ['evenOutHours', 'most'],
      message: `The most time to even out must not be below the least (${least} hours)`,
    },
  ]
}

function repeated(list: 'parts' | 'steps', design: Checked): Fault[] {
  const one = list === 'parts' ? 'parts' : 'steps'
  const ids: readonly string[] = design[list].map((member) => member.id)
  return ids.flatMap((id, index) =>
    ids.indexOf(id) < index
      ? [{ path: [list, index, 'id'], message: `“${design.name}” has two ${one} with the id “${id}”; ids must differ` }]
      : [],
  )
}

/** Clay steps stand first, then glaze, finish, pack: the order in which `core/studio` promises them. */
const rankOf = (step: DesignStep): number => ['glaze', 'finish', 'pack'].indexOf(step.kind)

function stepFaults({ name, parts, steps }: Checked): Fault[] {
  const partIds = new Set(parts.map((part) => part.id))
  return steps.flatMap((step, index) => {
    const path = ['steps', index]
    const before = steps[index - 1]
    const faults: Fault[] = step.partIds.flatMap((partId, at) =>
      partIds.has(partId)
        ? []
        : [
            {
              path: [...path, 'partIds', at],
              message: `“${name}” has no part “${partId}” for the step “${step.name}”`,
            },
          ],
    )
    if (before && rankOf(step) < rankOf(before))
      faults.push({
        path: [...path, 'kind'],
        message: `“${step.name}” cannot come after “${before.name}”: clay first, then glaze, finish, pack`,
      })
    if (step.band && isUpsideDown(step.band))
      faults.push({
        path: [...path, 'band', 'to'],
        message: `“${step.name}” cannot begin at ${step.band.from} and end at ${step.band.to}: it must end at a drier word`,
      })
    return faults
  })
}

/** A band ends where its last word begins, so that one word alone is no band. */
function isUpsideDown({ from, to }: NonNullable<DesignStep['band']>): boolean {
  if (from === 'any' || to === 'any') return false
  return firmnesses.indexOf(from) >= firmnesses.indexOf(to)
}
