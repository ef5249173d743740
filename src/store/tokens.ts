/** Narrow keys for calendars and sensors; only their hashes are here. */
import { and, asc, eq, isNull, sql } from 'drizzle-orm'
import { tokens } from '#db/schema/index.ts'
import type { Db } from './db.ts'

export type NewToken = Pick<typeof tokens.$inferSelect, 'id' | 'kind' | 'name' | 'hash' | 'spotId'>
/** What may be shown of a token. */
export type TokenLine = Omit<typeof tokens.$inferSelect, 'studioId' | 'hash'>
/** What a token opens. */
export type TokenGrant = Pick<typeof tokens.$inferSelect, 'studioId' | 'id' | 'kind' | 'spotId'>

export async function insertToken(db: Db, studioId: string, token: NewToken): Promise<void> {
  await db.insert(tokens).values({ ...token, studioId })
}

/**
 * The one query that is not told its studio: it is how one is found.
 * @returns undefined for a token that never was, or was taken back
 */
export async function findTokenByHash(db: Db, hash: string): Promise<TokenGrant | undefined> {
  const { studioId, id, kind, spotId } = tokens
  const [found] = await db
    .select({ studioId, id, kind, spotId })
    .from(tokens)
    .where(and(eq(tokens.hash, hash), isNull(tokens.revokedAt)))
  return found
}

/** Those taken back too, by name. */
export function listTokens(db: Db, studioId: string): Promise<readonly TokenLine[]> {
  const { id, kind, name, spotId, madeAt, revokedAt } = tokens
  return db
    .select({ id, kind, name, spotId, madeAt, revokedAt })
    .from(tokens)
    .where(eq(tokens.studioId, studioId))
    .orderBy(asc(name), asc(id))
}

export async function revokeToken(db: Db, studioId: string, id: string): Promise<'revoked' | 'not-there'> {
  const revoked = await db
    .update(tokens)
    .set({ revokedAt: sql`clock_timestamp()` })
    .where(and(eq(tokens.studioId, studioId), eq(tokens.id, id), isNull(tokens.revokedAt)))
    .returning({ id: tokens.id })
  return revoked.length > 0 ? 'revoked' : 'not-there'
}
