import { expect } from 'vitest'
import { expectAccess } from './access.ts'
import { goTo, journey } from './journey.ts'

journey('every room can be seen, heard and tapped, in both themes and three sizes', async ({ server, openDevice }) => {
  const page = await (await openDevice()).newPage()
  await goTo(page, server, '/')
  const rooms = await page.getByRole('navigation', { name: 'Rooms' }).getByRole('link').all()
  const addresses = await Promise.all(rooms.map((room) => room.getAttribute('href')))
  expect(addresses).toContain('/orders')
  for (const address of addresses) {
    await goTo(page, server, address!)
    await expectAccess(page)
  }
})
