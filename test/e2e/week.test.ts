import { expect } from 'vitest'
import type { PinRecord } from '#contract/order.ts'
import type { Offer, Plan } from '#core/planning/plan.ts'
import { ask, untilPlanned } from '../support/ownServer.ts'
import { journey } from './journey.ts'
import { kindsAfter, logEnd } from './logbook.ts'

journey('a session is missed and then not; what would go better is offered, and taken', async ({ ownServer, open }) => {
  const page = await open(ownServer, '/week')
  const before = await logEnd(ownServer)
  const session = page.getByRole('button', { name: 'Miss it: Ines, today, 9:15' })
  await session.click()
  await session.waitFor({ state: 'detached' })
  await untilPlanned(ownServer)

  await page.getByRole('link', { name: 'Bench' }).click()
  await page.getByRole('button', { name: 'Undo: Ines is away: today' }).click()
  await expect.poll(() => kindsAfter(ownServer, before)).toEqual(['away', 'corrected'])
  const offered = offerOf(await untilPlanned(ownServer), Date.parse('2026-03-02T10:00Z') / 60_000)
  await page.route('**/api/plan', async (route) => {
    const response = await route.fetch()
    const answer = (await response.json()) as { plan: Plan | null }
    await route.fulfill({ response, json: { ...answer, plan: answer.plan && { ...answer.plan, offers: [offered] } } })
  })
  await page.reload()
  await page.getByRole('link', { name: 'Week' }).click()

  const offer = page.getByRole('listitem').filter({ hasText: 'Wax and glaze, Soap dish' }).filter({ hasText: '→' })
  await offer.getByRole('button', { name: 'Take' }).first().click()
  await page.getByText('Wax and glaze, Soap dish moves to today').waitFor()
  const { pins } = await ask<{ pins: PinRecord[] }>(ownServer, '/api/studio/tables')
  expect(pins).toMatchObject([{ runId: 'run-soap-1', stepId: 'glaze', makerId: 'ines' }])
  await page.getByText('(pinned)').first().waitFor()
})

/** Whether the plan of so few orders could be better for a move hangs on the minute: here it is said to be. */
function offerOf({ tasks }: Plan, toMin: number): Offer {
  const task = tasks.find(({ runId, stepId }) => runId === 'run-soap-1' && stepId === 'glaze')!
  return {
    id: `offer:${task.id}`,
    taskId: task.id,
    runId: task.runId,
    stepId: 'glaze',
    fromMin: task.startMin,
    toMin,
    makerId: 'ines',
    gains: [{ cost: 'sessions', amount: 1 }],
  }
}

journey('a step is moved with the keyboard, and what would come of it is said first', async ({ server, open }) => {
  const page = await open(server, '/week')
  const join = page.getByRole('button', { name: /^Move: Mitre and join/ }).first()
  await join.focus()
  await page.keyboard.press('Enter')
  const panel = page.getByRole('region', { name: 'Move a step' })
  await panel.waitFor()
  await page.keyboard.press('ArrowRight')
  await page.keyboard.press('Enter')
  await panel
    .getByRole('status')
    .getByText(/Every order keeps its date|Orders|It cannot stand there/)
    .waitFor()
  await page.keyboard.press('Escape')
  await panel.waitFor({ state: 'detached' })
  expect(await join.evaluate((button) => button === document.activeElement)).toBe(true)
})
