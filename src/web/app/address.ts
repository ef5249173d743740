/** The address in the browser's bar. */
import { useMemo, useSyncExternalStore } from 'react'

const moved = 'wareboard:moved'

export const useAddress = (): string => useSyncExternalStore(listen, () => location.pathname)

/** What stands after the path: `?print=firing-1`. */
export function useQuestion(): URLSearchParams {
  const search = useSyncExternalStore(listen, () => location.search)
  return useMemo(() => new URLSearchParams(search), [search])
}

/** @param path of the app's own, such as `/week`, with or without a question */
export function goTo(path: string): void {
  history.pushState(null, '', path)
  dispatchEvent(new Event(moved))
}

function listen(listener: () => void): () => void {
  addEventListener('popstate', listener)
  addEventListener(moved, listener)
  return () => {
    removeEventListener('popstate', listener)
    removeEventListener(moved, listener)
  }
}
