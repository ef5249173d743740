/** A new order while it is typed, kept on the device until it is in: leaving the room loses nothing. */
import { useState } from 'react'
import { newId } from '../data/device.ts'
import { type Draft, emptyDraft } from './draft.ts'

const storeKey = 'wareboard.orderDraft'

export function useKeptDraft(): readonly [Draft, (draft: Draft) => void, () => void] {
  const [draft, setDraft] = useState<Draft>(() => readDraft() ?? emptyDraft(newId('line')))
  const keep = (next: Draft) => {
    localStorage.setItem(storeKey, JSON.stringify(next))
    setDraft(next)
  }
  const clear = () => {
    localStorage.removeItem(storeKey)
    setDraft(emptyDraft(newId('line')))
  }
  return [draft, keep, clear]
}

/** None where it cannot be read: then one begins anew. */
function readDraft(): Draft | undefined {
  try {
    const draft = JSON.parse(localStorage.getItem(storeKey) ?? '') as Draft
    return draft.lines.length > 0 ? draft : undefined
  } catch {
    return undefined
  }
}
