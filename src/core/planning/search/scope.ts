import type { Interval } from '../../time.ts'
import type { Literal, Model } from './lcg/model.ts'
import type { Pairs, Precedence } from './pairs.ts'
import type { Schedule } from './schedule.ts'

/** What is known beforehand, or a literal that decides it. */
export type Truth = Literal | boolean

/** That the member is fired in the slot (both tasks). */
export type Seat = { readonly kiln: number; readonly member: number; readonly slot: number; readonly truth: Truth }

/** A problem, or the part of it that a neighbourhood leaves free, as a model. The start of task t is variable t. */
export type Compiled = {
  readonly model: Model
  /** Variable that stands for minute 0 of the clock. */
  readonly originVariable: number
  /** By task, by mode. */
  readonly modeTruth: readonly (readonly Truth[])[]
  /** By task. */
  readonly presence: readonly Truth[]
  /** By assumption: the literal that puts it in force. */
  readonly assumptions: readonly Literal[]
  /** 0-1 variables to decide before starts. */
  readonly choices: Literal[]
  /** Who may be fired in which slot. */
  readonly seats: Seat[]
  /** Literal that holds whenever all of them do; true for none. */
  readonly all: (truths: readonly Truth[]) => Truth
}

/** Which part of the problem the model leaves open; without an incumbent, all of it. */
export type Scope = {
  readonly incumbent?: { readonly schedule: Schedule; readonly freedom: readonly Freedom[] }
  readonly pairs?: Pairs
  /** Orders of tasks to be kept. */
  readonly precedences?: readonly Precedence[]
  /** What is not fixed starts and ends inside it. */
  readonly window?: Interval
}

/**
 * What may change about a task: everything; only its start; nothing; or it is not there at all, not even as one left
 * out, so that whatever ties others to it is silent.
 */
export type Freedom = 'free' | 'movable' | 'fixed' | 'ignored'
