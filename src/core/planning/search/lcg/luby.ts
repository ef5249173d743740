/** 1 1 2 1 1 2 4 ... from index 1. @see Luby, Sinclair, Zuckerman (1993), Optimal speedup of Las Vegas algorithms */
export function luby(index: number): number {
  let size = 1
  while (size < index) size = 2 * size + 1
  let at = index
  while (size !== at) {
    size = (size - 1) / 2
    if (at > size) at -= size
  }
  return (size + 1) / 2
}
