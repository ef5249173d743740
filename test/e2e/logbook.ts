/** What the server's logbook says, for journeys. */
import type { EntryRecord } from '#contract/entry.ts'
import { ask, type OwnServer } from '../support/ownServer.ts'

type Page = { readonly logPosition: number; readonly entries: readonly { readonly entry: EntryRecord }[] }

/** Where the logbook ends now. */
export const logEnd = async (server: OwnServer): Promise<number> =>
  (await ask<Page>(server, '/api/log?limit=1')).logPosition

/** Oldest first. */
export const entriesAfter = async (server: OwnServer, position: number): Promise<EntryRecord[]> =>
  (await ask<Page>(server, `/api/log?after=${position}`)).entries.map(({ entry }) => entry)

export const kindsAfter = async (server: OwnServer, position: number): Promise<string[]> =>
  (await entriesAfter(server, position)).map(({ kind }) => kind)
