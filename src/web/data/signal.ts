/** A value that lives outside the tree of components, and tells who listens when it changes. */
import { useSyncExternalStore } from 'react'

export type Signal<Value> = {
  readonly get: () => Value
  readonly set: (value: Value) => void
  readonly listen: (listener: () => void) => () => void
}

export function createSignal<Value>(first: Value): Signal<Value> {
  let value = first
  const listeners = new Set<() => void>()
  return {
    get: () => value,
    set: (next) => {
      value = next
      for (const listener of listeners) listener()
    },
    listen: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
  }
}

export const useSignal = <Value>({ listen, get }: Signal<Value>): Value => useSyncExternalStore(listen, get)

/** @param select must give the same object again as long as nothing of it changed */
export const useSelected = <Value, Part>({ listen, get }: Signal<Value>, select: (value: Value) => Part): Part =>
  useSyncExternalStore(listen, () => select(get()))
