import { DrizzleQueryError } from 'drizzle-orm/errors'
import { describe, expect, test } from 'vitest'
import { faultText, troubleOf } from '#store/troubles.ts'

const withCode = (code: string, more: object = {}) => Object.assign(new Error(`it says ${code}`), { code, ...more })

describe('what fails outside our doing has a sentence', () => {
  test.each([
    ['a full disk', withCode('ENOSPC'), /disk is full/],
    ['a full disk, as the database tells it', withCode('53100'), /disk is full/],
    ['a folder of somebody else', withCode('EACCES', { path: '/srv/ware' }), /\/srv\/ware/],
    [
      'a folder that may not be locked',
      withCode('EACCES', { path: '/srv/ware/in-use.json.6fe1' }),
      /write \/srv\/ware\./,
    ],
    ['a file where a folder should be', withCode('ENOTDIR', { path: '/srv/ware' }), /\/srv\/ware/],
    ['a database server that is away', withCode('ECONNREFUSED'), /cannot be reached/],
    ['a database server that shuts down', withCode('57P01'), /cannot be reached/],
    ['a wrong password', withCode('28P01'), /password/],
    ['a query that failed for one of these', new DrizzleQueryError('select', [], withCode('ENOSPC')), /disk is full/],
  ])('%s', (_, error, sentence) => expect(troubleOf(error)?.sentence).toMatch(sentence))

  test('a fault of ours has none', () => expect(troubleOf(new TypeError('x is not a function'))).toBeUndefined())
})

test('a fault in the log does not carry what a query carried', () => {
  const error = new DrizzleQueryError('insert into orders', ['Lena, dinner for six'], new Error('it was refused'))
  expect(faultText(error)).toContain('insert into orders')
  expect(faultText(error)).toContain('it was refused')
  expect(faultText(error)).not.toContain('Lena')
})
