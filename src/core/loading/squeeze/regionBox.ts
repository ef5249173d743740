import { oncePer } from '../once.ts'
import type { Region } from '../region.ts'
import type { Box } from '../shape.ts'

/** Half the side of the square that stands for the whole plane, mm. */
const WIDE_MM = 1e5

/** The box around a region, not much wider than need be: its straight part cut out, then its round ones boxed. */
export const regionBox = oncePer(boxFrom)

function boxFrom({ planes, capsules }: Region): Box {
  let corners: (readonly [number, number])[] = [
    [-WIDE_MM, -WIDE_MM],
    [WIDE_MM, -WIDE_MM],
    [WIDE_MM, WIDE_MM],
    [-WIDE_MM, WIDE_MM],
  ]
  for (let i = 0; i < planes.length; i += 3) corners = clipped(corners, planes[i]!, planes[i + 1]!, planes[i + 2]!)
  const xs = corners.map(([x]) => x)
  const ys = corners.map(([, y]) => y)
  let [minX, minY, maxX, maxY] = [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)]
  for (let i = 0; i < capsules.length; i += 5) {
    const [ax, ay, bx, by, radius] = capsules.slice(i, i + 5) as [number, number, number, number, number]
    minX = Math.max(minX, Math.min(ax, bx) - radius)
    minY = Math.max(minY, Math.min(ay, by) - radius)
    maxX = Math.min(maxX, Math.max(ax, bx) + radius)
    maxY = Math.min(maxY, Math.max(ay, by) + radius)
  }
  return { minX, minY, maxX, maxY }
}

/** The part of a convex polygon on the inner side of a line. */
function clipped(corners: readonly (readonly [number, number])[], nx: number, ny: number, d: number) {
  return corners.flatMap(([x, y], i) => {
    const [toX, toY] = corners[(i + 1) % corners.length]!
    const [here, there] = [nx * x + ny * y - d, nx * toX + ny * toY - d]
    const own = here <= 0 ? [[x, y] as const] : []
    if (here <= 0 === there <= 0) return own
    const share = here / (here - there)
    return [...own, [x + share * (toX - x), y + share * (toY - y)] as const]
  })
}
