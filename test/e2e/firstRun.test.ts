import { expect } from 'vitest'
import { expectAccess } from './access.ts'
import { journey, sizes } from './journey.ts'

journey('one click leads from nothing to a bench full of work', async ({ emptyServer, open }) => {
  const page = await open(emptyServer, '/', { size: 'phone' })
  await expectAccess(page)
  await page.setViewportSize(sizes.phone)
  await page.getByRole('button', { name: /example studio/ }).click()
  await page.getByRole('heading', { name: 'Bench', level: 1 }).waitFor({ timeout: 120_000 })
  expect(await page.getByRole('article').count()).toBeGreaterThan(3)
})
