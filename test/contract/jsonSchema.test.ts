import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { studioFileJsonSchemaText } from '#contract/jsonSchema.ts'

test('the published schema is that of the program (else: npm run schema)', () => {
  const path = new URL('../../db/studio-file.schema.json', import.meta.url)
  expect(readFileSync(path, 'utf8')).toBe(studioFileJsonSchemaText())
})
