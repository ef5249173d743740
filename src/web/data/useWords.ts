/** To whom the sentences of a screen are said. */
import { useMemo } from 'react'
import type { Context, Units } from '#words/context.ts'
import { useNowMin } from './clock.ts'
import { useStudio } from './queries.ts'
import { createSignal, useSignal } from './signal.ts'

const storeKey = 'wareboard.units'
const usPlaces = /-(US|LR|MM)$/
const locale = navigator.languages.find(isLocale) ?? 'en-GB'

const kept = localStorage.getItem(storeKey)
export const units = createSignal<Units>(
  kept === 'us' || kept === 'metric' ? kept : usPlaces.test(locale) ? 'us' : 'metric',
)

export function setUnits(next: Units): void {
  localStorage.setItem(storeKey, next)
  units.set(next)
}

/** In the zone of the studio; before there is one, of the device. The same object until something of it changes. */
export function useWords(): Context {
  const { data } = useStudio()
  const zone = data?.studio.zone ?? Intl.DateTimeFormat().resolvedOptions().timeZone
  const shownUnits = useSignal(units)
  const nowMin = useNowMin()
  return useMemo(() => ({ zone, locale, units: shownUnits, nowMin }), [zone, shownUnits, nowMin])
}

/** Browsers also name languages that no formatter takes, such as "en-US@posix". */
function isLocale(name: string): boolean {
  try {
    return Intl.getCanonicalLocales(name).length > 0
  } catch {
    return false
  }
}
