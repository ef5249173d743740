/** What a lane of the week is made of. */
import type { Minute } from '#core/time.ts'

export type BarKind =
  | 'air'
  | 'hours'
  | 'hands'
  | 'pinned'
  | 'look-in'
  | 'kiln-work'
  | 'window'
  | 'waiting'
  | 'racks'
  | 'firing'
  | 'cooling'
export type Bar = {
  readonly key: string
  readonly kind: BarKind
  readonly startMin: Minute
  readonly endMin: Minute
  readonly label: string
  /** The step that can be moved by it. */
  readonly taskId?: string
  /** Where it lies in its lane, as shares of the lane's height from below; all of it if not said. */
  readonly shares?: { readonly low: number; readonly high: number }
}
/** `makerId` where it is the lane of somebody's hands. A lane without bars heads those of its group. */
export type Lane = {
  readonly key: string
  readonly name: string
  readonly makerId?: string
  readonly isHeading?: boolean
  readonly bars: readonly Bar[]
}
export type Span = { readonly fromMin: Minute; readonly toMin: Minute }
