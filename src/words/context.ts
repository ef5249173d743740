/** To whom something is said: where, in which tongue's dates, in which units, and when. */
import type { Minute } from '#core/time.ts'

export type Units = 'metric' | 'us'

export type Context = {
  /** IANA name of the studio's zone. */
  readonly zone: string
  /** BCP 47 tag for dates and numbers; sentences are English. */
  readonly locale: string
  readonly units: Units
  readonly nowMin: Minute
}

/** For what is printed: days by their dates, since paper does not know on what day it is read. */
export const onPaper = (context: Context): Context => ({ ...context, nowMin: 0 })
