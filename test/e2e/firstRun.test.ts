import { expect } from 'vitest'
import { journey } from './journey.ts'

journey('one click leads from nothing to a bench full of work', async ({ emptyServer, open }) => {
  const page = await open(emptyServer, '/', { size: 'phone' })
  await page.getByRole('button', { name: /example studio/ }).click()
  await page.getByRole('heading', { name: 'Bench', level: 1 }).waitFor({ timeout: 60_000 })
  expect(await page.getByRole('article').count()).toBeGreaterThan(3)
})
