import { text } from 'drizzle-orm/pg-core'
import { studios } from './studios.ts'

/** The studio a row belongs to: the first column of every key, and the row goes with it. */
export const ofStudio = () =>
  text('studio_id')
    .notNull()
    .references(() => studios.id, { onDelete: 'cascade' })
