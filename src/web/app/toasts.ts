/** Short words about what was just done, with a way back. */
import { createSignal } from '../data/signal.ts'

export type Toast = { readonly key: number; readonly said: string; readonly undo?: (() => void) | undefined }

const stayMs = 12_000
const mostShown = 2

export const toasts = createSignal<readonly Toast[]>([])

let count = 0

export function toast(words: Omit<Toast, 'key'>): void {
  const key = ++count
  toasts.set([...toasts.get(), { ...words, key }].slice(-mostShown))
  setTimeout(() => dismiss(key), stayMs)
}

export function dismiss(key: number): void {
  toasts.set(toasts.get().filter((other) => other.key !== key))
}
