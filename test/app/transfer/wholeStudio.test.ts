import { expect } from 'vitest'
import { exportStudio } from '#app/transfer/exportStudio.ts'
import { importStudio } from '#app/transfer/importStudio.ts'
import { readStudioFile } from '#app/studio/readStudioFile.ts'
import { writeStudioFile } from '#app/studio/writeStudioFile.ts'
import { exampleStudioFile } from '#db/seed/exampleStudio.ts'
import { onBothDatabases } from '../../support/databases.ts'
import { randomStudioFile } from '../../support/randomStudio.ts'
import { anEmptyStudioFile } from '../../support/studioFiles.ts'

onBothDatabases('a studio that was imported is exported again byte for byte', async (db) => {
  const random = Array.from({ length: 8 }, (_, index) => randomStudioFile(500 + index, { orderCount: 5 }))
  for (const file of [exampleStudioFile('2026-03-29'), anEmptyStudioFile(), ...random]) {
    const text = writeStudioFile(file)
    await importStudio(db, readStudioFile(text), true)
    expect(await exportStudio(db, file.studio.id, file.asOf)).toBe(text)
  }
})
