/** What the rows together say, in the words of the contract: the store gives and takes these. */
export type { EntryRecord } from '#contract/entry.ts'
export type { StudioTables } from '#contract/studioFields.ts'
