/**
 * The same value for the same object, reckoned when it is first asked for and kept as long as the object is. For plain
 * data that is never changed: kilns, footprints, regions.
 */
export function oncePer<Key extends object, Value>(reckon: (key: Key) => Value): (key: Key) => Value {
  const known = new WeakMap<Key, { readonly value: Value }>()
  return (key) => {
    let entry = known.get(key)
    if (entry === undefined) {
      entry = { value: reckon(key) }
      known.set(key, entry)
    }
    return entry.value
  }
}
