/** The address in the browser's bar, by its path alone. */
import { useSyncExternalStore } from 'react'

const moved = 'wareboard:moved'

export const useAddress = (): string => useSyncExternalStore(listen, () => location.pathname)

/** @param path of the app's own, such as `/week` */
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
