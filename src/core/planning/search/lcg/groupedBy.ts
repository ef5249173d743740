/** Indices gathered by key: those of key k are `order[first[k]]` up to, not including, `order[first[k + 1]]`. */
export function groupedBy(keys: readonly number[], keyCount: number): { first: Int32Array; order: Int32Array } {
  const first = new Int32Array(keyCount + 1)
  for (const key of keys) first[key + 1]!++
  for (let key = 0; key < keyCount; key++) first[key + 1]! += first[key]!
  const next = first.slice()
  const order = new Int32Array(keys.length)
  keys.forEach((key, index) => (order[next[key]!++] = index))
  return { first, order }
}
