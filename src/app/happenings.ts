/** What screens are told as it happens; they then ask for what they show. Never more than that something is new. */
export type Happening =
  | { readonly kind: 'logged'; readonly logPosition: number }
  | { readonly kind: 'planning'; readonly logPosition: number; readonly effort: number }
  | { readonly kind: 'planned'; readonly planId: string; readonly logPosition: number; readonly effort: number }
  /** No more plans will follow for now: the last one is as good as it gets, or the work was stopped. */
  | { readonly kind: 'settled' }
  /** The plan made could not be kept, and the old one stands. */
  | { readonly kind: 'not-planned'; readonly logPosition: number; readonly why: PlanningFault }

/** `breach`: what was made breaks a rule. `fault`: making it failed. Both are in the server's log in full. */
export type PlanningFault = 'breach' | 'fault'

export type Happenings = {
  readonly tell: (studioId: string, happening: Happening) => void
  /** @returns what ends it */
  readonly listen: (studioId: string, listener: (happening: Happening) => void) => () => void
}

/** In this process only: with several, each tells what it did itself, and screens ask anew when they come back to it. */
export function createHappenings(): Happenings {
  const listenersOf = new Map<string, Set<(happening: Happening) => void>>()
  return {
    tell: (studioId, happening) => {
      for (const listener of listenersOf.get(studioId) ?? []) listener(happening)
    },
    listen: (studioId, listener) => {
      const listeners = listenersOf.get(studioId) ?? new Set()
      listenersOf.set(studioId, listeners.add(listener))
      return () => {
        listeners.delete(listener)
        if (listeners.size === 0) listenersOf.delete(studioId)
      }
    },
  }
}
