/** What the rooms show: the plan, the studio, and what the logbook says stands where. */
import { useQuery } from '@tanstack/react-query'
import type { StudioTables } from '#contract/studioFields.ts'
import type { LogState } from '#core/logbook/state.ts'
import type { Plan } from '#core/planning/plan.ts'
import { answerOf, client, Unmet } from './client.ts'

export type PlanNow = {
  /** null before the first one is made. */
  readonly plan: Plan | null
  /** Of the newest entry; where the plan's own is lower, a newer plan is on its way. */
  readonly logPosition: number
  readonly progress: {
    readonly doing: 'nothing' | 'first plan' | 'better plan'
    readonly made: number
    readonly of: number
  }
}
export type Studio = Omit<StudioTables, 'airReadings'>
export type StateNow = { readonly logPosition: number; readonly state: LogState }

export const keys = { plan: ['plan'], studio: ['studio'], state: ['state'] } as const

/** @returns `data` null: there is no studio yet */
export const useStudio = () =>
  useQuery({ queryKey: keys.studio, queryFn: () => orNone<Studio>(client.studio.tables.$get()) })

export const usePlan = () => useQuery({ queryKey: keys.plan, queryFn: () => orNone<PlanNow>(client.plan.$get()) })

export const useLogState = () =>
  useQuery({ queryKey: keys.state, queryFn: () => orNone<StateNow>(client.state.$get()) })

async function orNone<Body>(call: Promise<unknown>): Promise<Body | null> {
  try {
    return await answerOf(call as Promise<{ ok: boolean; json(): Promise<Body> }>)
  } catch (error) {
    if (error instanceof Unmet && error.problem.status === 404) return null
    throw error
  }
}
