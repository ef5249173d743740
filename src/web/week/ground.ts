/** Hours and air that the plan takes for given. */
import { useQuery } from '@tanstack/react-query'
import type { DayAir } from '#core/air/dayAir.ts'
import type { Interval, Minute } from '#core/time.ts'
import { answerOf, client } from '../data/client.ts'

export type Ground = {
  /** Up to here the air was read. */
  readonly nowMin: Minute
  readonly makers: readonly { readonly id: string; readonly makingHours: readonly Interval[] }[]
  /** `spotId` null: outdoors. */
  readonly air: readonly {
    readonly spotId: string | null
    readonly isRead: boolean
    readonly days: readonly DayAir[]
  }[]
}

/** @returns undefined until it is there: the week is drawn without it meanwhile */
export const useGround = (planId: string | undefined): Ground | undefined =>
  useQuery({
    queryKey: ['ground', planId],
    enabled: planId !== undefined,
    // Until that of the next plan is there, the last is as good as right.
    placeholderData: (last: Ground | undefined) => last,
    queryFn: async (): Promise<Ground> => answerOf(client.plan.ground.$get()),
  }).data
