/** Writes the studio file's JSON Schema; a test says when it has to be written again. */
import { writeFileSync } from 'node:fs'
import { studioFileJsonSchemaText } from '#contract/jsonSchema.ts'

const path = new URL('../db/studio-file.schema.json', import.meta.url)
writeFileSync(path, studioFileJsonSchemaText())
console.log('Wrote db/studio-file.schema.json')
