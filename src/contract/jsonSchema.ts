import { z } from 'zod'
import { STUDIO_FORMAT, STUDIO_VERSION } from './studioFields.ts'
import { studioFile } from './studioFile.ts'

/**
 * The studio file as JSON Schema (2020-12), for people who write such files with other tools. It knows fields, units
 * and ranges; references between records are checked when the file is read.
 */
export function studioFileJsonSchema(): object {
  const { $schema, ...schema } = z.toJSONSchema(studioFile, { io: 'input', reused: 'inline' })
  return { $schema, $id: `${STUDIO_FORMAT}-${STUDIO_VERSION}.schema.json`, title: 'Wareboard studio file', ...schema }
}

/** As it is kept in `db/studio-file.schema.json`. */
export const studioFileJsonSchemaText = (): string => `${JSON.stringify(studioFileJsonSchema(), null, 2)}\n`
