/** Indices gathered by key: those of key k are `order[first[k]]` up to, not including, `order[first[k + 1]]`. */
export function groupedBy(keys: ArrayLike<number>, keyCount: number): { first: Int32Array; order: Int32Array } {
  const first = new Int32Array(keyCount + 1)
  for (let i = 0; i < keys.length; i++) first[keys[i]! + 1]!++
  for (let key = 0; key < keyCount; key++) first[key + 1]! += first[key]!
  const next = first.slice()
  const order = new Int32Array(keys.length)
  for (let i = 0; i < keys.length; i++) order[next[keys[i]!]!++] = i
  return { first, order }
}
