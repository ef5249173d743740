import { expect } from 'vitest'
import { importAir } from '#app/transfer/importAir.ts'
import { importStudio } from '#app/transfer/importStudio.ts'
import { selectAirReadings } from '#store/airReadings.ts'
import { onBothDatabases } from '../../support/databases.ts'
import { aFullStudioFile } from '../../support/studioFiles.ts'

const file = { ...aFullStudioFile(), airReadings: [] }
const text = 'time;temp °C;hum %\n2026-03-01 09:00;18,5;60\n2026-03-01 10:00;19;58'

onBothDatabases('a logger’s table goes to its spot, and twice is once', async (db) => {
  await importStudio(db, file, true)
  const first = await importAir(db, { text, spot: 'long rack' })
  expect([first.readingCount, first.addedCount]).toEqual([2, 2])
  expect((await importAir(db, { text, spot: 'long-rack' })).addedCount).toBe(0)
  expect(await selectAirReadings(db, file.studio.id)).toEqual([
    { spotId: 'long-rack', at: '2026-03-01T09:00:00.000Z', tempC: 18.5, rh: 0.6 },
    { spotId: 'long-rack', at: '2026-03-01T10:00:00.000Z', tempC: 19, rh: 0.58 },
  ])
})

onBothDatabases(
  'weather goes to a room as that room’s air, and to a spot that lives by the weather as it is',
  async (db) => {
    const air = { kind: 'outdoors', setPointC: 20 } as const
    const spots = file.spots.map((spot) => (spot.id === 'kiln-shelf' ? { ...spot, air } : spot))
    await importStudio(db, { ...file, spots }, true)
    for (const spot of ['long-rack', 'kiln-shelf']) await importAir(db, { text, spot, outdoor: { setPointC: 20 } })
    const temperatures = (await selectAirReadings(db, file.studio.id)).map(({ spotId, tempC }) => `${spotId} ${tempC}`)
    expect(temperatures.toSorted()).toEqual(['kiln-shelf 18.5', 'kiln-shelf 19', 'long-rack 20', 'long-rack 20'])
  },
)

onBothDatabases('a spot that there is not is said, with those that there are', async (db) => {
  await importStudio(db, file, true)
  await expect(importAir(db, { text, spot: 'cellar' })).rejects.toThrow(
    'There is no spot “cellar”; there are: “Shelf by the kilns”, “Long rack”, “Wire rack by the window”.',
  )
})
