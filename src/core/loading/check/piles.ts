import { distanceMm, FORGIVEN_MM, placed, roomMm, type Placed } from './geometry.ts'
import { beneath, breach, carrier, type Standing } from './pieces.ts'
import type { LoadBreach } from './breach.ts'
import type { KilnSpace, Load, Point } from '../types.ts'

/**
 * What stands on or in what: allowed at all, at the right height, tight enough, light enough.
 * @param asked the pieces whose own stand is looked at; burdens are always those of all
 */
export function pileBreaches(
  kiln: KilnSpace,
  load: Load,
  standing: readonly Standing[],
  asked: readonly Standing[] = standing,
): LoadBreach[] {
  const byKey = new Map(standing.map((piece) => [piece.item.key, piece]))
  return [
    ...asked.flatMap((piece) => [...poseBreaches(load, piece), ...carrierBreaches(kiln, load, piece, byKey)]),
    ...burdenBreaches(standing, byKey),
  ]
}

function poseBreaches(load: Load, piece: Standing): LoadBreach[] {
  const { pose, onTopOf } = piece.placement
  const isAllowed =
    pose === 'upright' ||
    (pose === 'on-edge' && load.kind === 'bisque' && piece.item.stacking.onEdge !== undefined) ||
    (pose === 'inverted' && load.kind === 'bisque' && onTopOf?.how === 'rim')
  return isAllowed ? [] : [breach('pose-not-allowed', { piece: piece.item.key, pose })]
}

function carrierBreaches(
  kiln: KilnSpace,
  load: Load,
  piece: Standing,
  byKey: ReadonlyMap<string, Standing>,
): LoadBreach[] {
  const name = piece.item.key
  const { onTopOf } = piece.placement
  if (onTopOf === undefined) {
    const restsMm = piece.fromZMm - load.levels[piece.level]!.zMm
    const isOnPot = piece.item.lidOf !== undefined && byKey.has(piece.item.lidOf) && load.kind === 'glaze'
    const loose = isOnPot ? [breach('lid-off-its-pot', { piece: name, pot: piece.item.lidOf! })] : []
    return Math.abs(restsMm) <= FORGIVEN_MM ? loose : [...loose, breach('wrong-height', { piece: name, restsMm })]
  }
  const host = carrier(piece, byKey)
  if (host === undefined || host.level !== piece.level || beneath(host, byKey).includes(piece)) {
    return [breach('stacking-not-allowed', { piece: name, on: onTopOf.key })]
  }
  const wantedMm =
    host.fromZMm + (onTopOf.how === 'nested' ? (host.item.stacking.hollow?.floorMm ?? 0) : heightOf(host))
  const wrong = Math.abs(piece.fromZMm - wantedMm) > FORGIVEN_MM
  const breaches = wrong ? [breach('wrong-height', { piece: name, restsMm: piece.fromZMm - wantedMm })] : []
  return isPileAllowed(kiln, load, piece, host, breaches)
    ? breaches
    : [...breaches, breach('stacking-not-allowed', { piece: name, on: host.item.key })]
}

/** Whether the rules of the lower piece let the upper one stand so; a nest too tight is noted besides. */
function isPileAllowed(kiln: KilnSpace, load: Load, piece: Standing, host: Standing, breaches: LoadBreach[]): boolean {
  const { how } = piece.placement.onTopOf!
  const { stacking } = host.item
  if (how === 'lid') return piece.item.lidOf === host.item.key && host.placement.pose === 'upright'
  if (load.kind === 'glaze' || host.placement.pose === 'on-edge' || piece.placement.pose === 'on-edge') return false
  if (how === 'rim') return stacking.top === 'rim' && piece.item.stacking.top === 'rim' && areSameOutline(piece, host)
  if (how === 'flat')
    return stacking.top === 'flat' && host.placement.pose === 'upright' && liesWithin(piece, host.outline, 0)
  if (stacking.hollow === undefined || host.placement.pose !== 'upright') return false
  const { xMm, yMm, angleIndex } = host.placement
  const hollow = placed(stacking.hollow.footprint, xMm, yMm, angleIndex)
  const { nestMm } = kiln.clearances
  if (!liesWithin(piece, hollow, nestMm)) breaches.push(breach('nest-too-tight', { piece: piece.item.key, nestMm }))
  return true
}

/** Counts and masses that every piece of a pile carries. */
function burdenBreaches(standing: readonly Standing[], byKey: ReadonlyMap<string, Standing>): LoadBreach[] {
  const counts = new Map<Standing, number>()
  const masses = new Map<Standing, number>()
  for (const piece of standing) {
    if (piece.placement.onTopOf?.how === 'lid') continue // a lid belongs to its pot
    for (const lower of beneath(piece, byKey)) {
      counts.set(lower, (counts.get(lower) ?? 0) + 1)
      masses.set(lower, (masses.get(lower) ?? 0) + piece.item.massKg)
    }
  }
  return [...counts].flatMap(([lower, count]) => {
    const { maxAbove, maxMassAboveKg } = lower.item.stacking
    const massKg = masses.get(lower)!
    const breaches: LoadBreach[] = []
    if (count > maxAbove) breaches.push(breach('too-much-above', { piece: lower.item.key, count, maxAbove }))
    if (massKg > maxMassAboveKg + 1e-9) {
      breaches.push(breach('too-heavy-above', { piece: lower.item.key, massKg, maxMassAboveKg }))
    }
    return breaches
  })
}

function areSameOutline(a: Standing, b: Standing): boolean {
  const isNear = Math.hypot(a.placement.xMm - b.placement.xMm, a.placement.yMm - b.placement.yMm) <= 0.01
  return isNear && liesWithin(a, b.outline, -0.01) && liesWithin(b, a.outline, -0.01)
}

/** True when the piece lies inside a convex outline with a margin to spare. */
function liesWithin(piece: Standing, outline: Placed, marginMm: number): boolean {
  return outline.hulls.some((hull) => {
    const room = (p: Point): number => signedRoom(hull, p) + outline.radiusMm
    return roomMm(piece.outline, room) >= marginMm - FORGIVEN_MM
  })
}

/** Distance from a point to the edge of a hull, positive inside. */
function signedRoom(hull: readonly Point[], p: Point): number {
  const apart = distanceMm({ hulls: [[p]], radiusMm: 0 }, { hulls: [hull], radiusMm: 0 })
  if (hull.length < 3 || apart > 0) return -Math.abs(apart)
  let room = Infinity
  hull.forEach((a, i) => {
    const b = hull[(i + 1) % hull.length]!
    const length = Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm)
    room = Math.min(room, ((b.xMm - a.xMm) * (p.yMm - a.yMm) - (b.yMm - a.yMm) * (p.xMm - a.xMm)) / length)
  })
  return room
}

const heightOf = (piece: Standing): number => piece.toZMm - piece.fromZMm
