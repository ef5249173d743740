import { Refusal } from '../refusal.ts'

/**
 * A backup as the store makes it.
 * @param store its `backUp` is null where the studio is in a database server
 * @returns where the file is
 * @throws Refusal `invalid` where others make the backups
 */
export async function backUp({ backUp: make }: { readonly backUp: (() => Promise<string>) | null }): Promise<string> {
  if (!make) throw new Refusal('invalid', 'A database server is backed up by those who run it.')
  return make()
}
