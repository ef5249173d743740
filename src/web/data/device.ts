/** Which device this is, and how many entries it has made: the log orders what it did by these. */
const idKey = 'wareboard.device'
const countKey = 'wareboard.deviceSeq'

export function deviceId(): string {
  const kept = localStorage.getItem(idKey)
  if (kept) return kept
  const made = newId('device')
  localStorage.setItem(idKey, made)
  return made
}

/** Shared by all tabs of a browser. */
export function nextDeviceSeq(): number {
  const next = Number(localStorage.getItem(countKey) ?? 0) + 1
  localStorage.setItem(countKey, String(next))
  return next
}

export const newId = (what: string): string => `${what}-${crypto.randomUUID()}`
