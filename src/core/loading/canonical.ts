import { oncePer } from './once.ts'
import type { Footprint, Load, LoadItem, Point, Stacking } from './types.ts'

/**
 * Pieces in an order that hangs on their sizes alone, with keys '0', '1' ... and equal outlines made one object, so that
 * equal sizes get equal loads whatever their keys and however the call was ordered.
 */
export type Canonical = {
  readonly items: readonly LoadItem[]
  /** The caller's key for each canonical one, by position. */
  readonly keys: readonly string[]
  /** Says everything the packer looks at. */
  readonly signature: string
}

export function canonicalItems(items: readonly LoadItem[], footprints: Map<string, Footprint>): Canonical {
  const signed = items.map((item) => ({ item, sizes: sizesOf(item) }))
  signed.sort((a, b) => compare(a.sizes, b.sizes) || compare(a.item.key, b.item.key))
  const position = new Map(signed.map(({ item }, i) => [item.key, String(i)]))
  const groups = new Map<string, string>()
  const canonical = signed.map(({ item }, i): LoadItem => {
    const { group, lidOf, ...rest } = item
    if (group !== undefined && !groups.has(group)) groups.set(group, String(groups.size))
    const pot = lidOf === undefined ? undefined : position.get(lidOf)
    return {
      ...rest,
      key: String(i),
      footprint: shared(item.footprint, footprints),
      ...(group !== undefined && { group: groups.get(group)! }),
      ...(pot !== undefined && { lidOf: pot }),
    }
  })
  const links = canonical.map((item) => `${item.group ?? ''}>${item.lidOf ?? ''}`)
  return {
    items: canonical,
    keys: signed.map(({ item }) => item.key),
    signature: signed.map(({ sizes }, i) => `${sizes}@${links[i]}`).join('|'),
  }
}

/** The load with the caller's keys in place of canonical ones. */
export function withKeys(load: Load, keys: readonly string[]): Load {
  const keyOf = (canonical: string): string => keys[Number(canonical)]!
  const levels = load.levels.map((level) => ({
    ...level,
    placements: level.placements.map(({ onTopOf, ...placement }) => ({
      ...placement,
      key: keyOf(placement.key),
      ...(onTopOf && { onTopOf: { ...onTopOf, key: keyOf(onTopOf.key) } }),
    })),
  }))
  return { ...load, levels, leftOut: load.leftOut.map((left) => ({ ...left, key: keyOf(left.key) })) }
}

const outlineText = oncePer(({ radiusMm, hulls }: Footprint): string => `${radiusMm}:${hulls.map(hullText).join(';')}`)

/** Corners written out in full; beyond these their digest is written, as the text would be long. */
const CORNERS_IN_FULL = 8

function hullText(hull: readonly Point[]): string {
  if (hull.length <= CORNERS_IN_FULL) return hull.map((p) => `${p.xMm},${p.yMm}`).join(' ')
  let [first, second] = [0x811c9dc5, 0x9e3779b9]
  for (const { xMm, yMm } of hull) {
    bits.setFloat64(0, xMm)
    bits.setFloat64(8, yMm)
    for (let at = 0; at < 16; at += 4) {
      first = Math.imul(first ^ bits.getUint32(at), 0x01000193)
      second = Math.imul(second ^ bits.getUint32(at), 0x85ebca6b)
      second ^= second >>> 13
    }
  }
  return `${hull.length}#${hull[0]!.xMm},${hull[0]!.yMm}#${first >>> 0}#${second >>> 0}`
}

const bits = new DataView(new ArrayBuffer(16))

function sizesOf(item: LoadItem): string {
  const { heightMm, massKg, mustGo, rotation, wholeShelf, firing, urgency } = item
  const rest = [heightMm, massKg, mustGo, rotation, wholeShelf, firing?.lowC, firing?.highC, urgency].join(' ')
  return `${outlineText(item.footprint)}/${rest}/${stackingText(item.stacking)}`
}

function stackingText(stacking: Stacking): string {
  const { maxAbove, maxMassAboveKg, top, hollow, onEdge } = stacking
  if (maxAbove === 0 && onEdge === undefined) return ''
  const inside = hollow === undefined ? '' : `${hollow.floorMm} ${outlineText(hollow.footprint)}`
  const edge = onEdge === undefined ? '' : `${onEdge.heightMm} ${outlineText(onEdge.footprint)}`
  return `${maxAbove} ${maxMassAboveKg} ${top} ${inside} ${edge}`
}

function shared(footprint: Footprint, footprints: Map<string, Footprint>): Footprint {
  const text = outlineText(footprint)
  const first = footprints.get(text)
  if (first !== undefined) return first
  footprints.set(text, footprint)
  return footprint
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
