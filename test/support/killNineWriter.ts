/** Opens the database it is given, says which entries it holds, then adds one after another and says each once it is acknowledged. */
import fs from 'node:fs'
import { appendEntries, entriesAfter } from '#store/logEntries.ts'
import { openStore, storePlaceOf } from '#store/open.ts'
import { upsertStudio } from '#store/studios.ts'
import { aStudioRecord, anEntryRecord } from './entryRecords.ts'

const [folder, url, round] = process.argv.slice(2)
// Written at once, not when there is time: what is said must be out before the next entry is begun.
const say = (line: string) => fs.writeSync(1, `${line}\n`)

const { db } = await openStore(storePlaceOf(url, folder!))
await upsertStudio(db, aStudioRecord)
const held = await entriesAfter(db, 'studio', 0, 1_000_000)
say(`holds ${held.map(({ position, entry }) => `${position}:${entry.id}`).join(' ')}`)
for (let count = 1; ; count++) {
  const id = `round-${round}-entry-${count}`
  const places = await appendEntries(db, 'studio', [{ ...anEntryRecord(count), id }])
  if (places === 'no-such-studio') throw new Error('The studio is gone.')
  say(`has ${places[0]!.position}:${id}`)
}
