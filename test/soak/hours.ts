import { compareHours } from '../app/calendar/randomHours.ts'

/** Hours of random rules against a second library. */
export const run = (cases: number, seed: number): { failures: number; report: string } => compareHours(cases, seed)
