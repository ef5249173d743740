import { coarseOutline } from './coarse.ts'
import { grownAreaMm2, outlineOf, type Outline } from './outline.ts'
import { outlineAround } from './within.ts'
import type { KilnSpace, LoadItem, LoadKind, Placement, Pose, Rotation } from './types.ts'

/** A piece of a bundle, placed relative to the bundle's reference point, angle and foot. */
export type BundleMember = {
  readonly item: LoadItem
  readonly pose: Pose
  readonly dxMm: number
  readonly dyMm: number
  readonly dzMm: number
  /** Steps of the angle table it is turned by against the bundle. */
  readonly turn: number
  readonly onTopOf?: NonNullable<Placement['onTopOf']>
}

/** How far a bisque load piles its ware; in a glaze load every piece stands apart. */
export type Piling = 'apart' | 'nested' | 'piled'

/** What the packer sets down as one: a piece, or a pile of pieces with one outline and one height. */
export type Bundle = {
  readonly members: readonly BundleMember[]
  readonly outline: Outline
  /** Equal for bundles that find room on a level or none alike: by outline, turns and joints. */
  readonly freedom: string
  readonly heightMm: number
  readonly massKg: number
  readonly mustGo: boolean
  readonly rotation: Rotation
  readonly wholeShelf: boolean
  readonly urgency: number
  /** Area of floor it takes with its share of the gap. */
  readonly areaMm2: number
  /** What its pieces would take each on its own, roughly: outline times height and a share of the shelf. */
  readonly wareMm3: number
}

export const gapOf = (kiln: KilnSpace, kind: LoadKind): number =>
  kind === 'glaze' ? kiln.clearances.glazeGapMm : kiln.clearances.bisqueGapMm

/** One bundle from members, the first of which carries the others; its outline goes around them all. */
export function bundleOf(members: readonly BundleMember[], gapMm: number): Bundle {
  const outlines = members.map(({ item, pose }) => {
    const stood = pose === 'on-edge' ? item.stacking.onEdge : undefined
    return outlineOf(stood?.footprint ?? item.footprint)
  })
  const outline = outlines.length === 1 ? outlines[0]! : outlineAround(outlines)
  const rotation = tightest(members.map((member) => member.item.rotation))
  const wholeShelf = members.some((member) => member.item.wholeShelf === true)
  return {
    members,
    outline: coarseOutline(outline),
    freedom: `${outline.id}${rotation}${wholeShelf ? 'w' : ''}`,
    heightMm: Math.max(...members.map((member) => member.dzMm + heightIn(member))),
    massKg: members.reduce((sum, member) => sum + member.item.massKg, 0),
    mustGo: members.some((member) => member.item.mustGo),
    rotation,
    wholeShelf,
    urgency: Math.max(...members.map((member) => member.item.urgency ?? 0)),
    areaMm2: grownAreaMm2(outline, gapMm / 2),
    wareMm3: members.reduce((sum, { item }) => sum + outlineOf(item.footprint).areaMm2 * (item.heightMm + 20), 0),
  }
}

/** What it costs to leave a bundle out: must-go pieces above all, then urgent volume. */
export const lossOf = ({ wareMm3, mustGo, urgency }: Bundle): number =>
  wareMm3 * (mustGo ? 1_000 : 1 + Math.max(0, urgency))

/** Height of a piece in its pose. */
export function heightIn(member: Pick<BundleMember, 'item' | 'pose'>): number {
  const { item, pose } = member
  return pose === 'on-edge' ? (item.stacking.onEdge?.heightMm ?? item.heightMm) : item.heightMm
}

function tightest(rotations: readonly Rotation[]): Rotation {
  const byFreedom: readonly Rotation[] = ['none', 'half', 'quarter', 'any']
  return byFreedom.find((rotation) => rotations.includes(rotation)) ?? 'any'
}
