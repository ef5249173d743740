import { expect, test } from 'vitest'
import { withDb } from '../support/databases.ts'
import { sendBadRequests } from '../soak/api.ts'

test('200 bad requests, and never a fault of ours or a stack in the answer', () =>
  withDb(async (db) => expect(await sendBadRequests(db, 200, 1)).toEqual([])))
