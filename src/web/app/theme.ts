/** Light, dark, or as the device has it. */
import { createSignal } from '../data/signal.ts'

export const themes = ['device', 'light', 'dark'] as const
export type Theme = (typeof themes)[number]

const storeKey = 'wareboard.theme'

const kept = localStorage.getItem(storeKey)
export const theme = createSignal<Theme>(kept === 'light' || kept === 'dark' ? kept : 'device')

export function setTheme(next: Theme): void {
  localStorage.setItem(storeKey, next)
  theme.set(next)
  applyTheme()
}

export function applyTheme(): void {
  document.documentElement.dataset['theme'] = theme.get()
}
