import { spawn } from 'node:child_process'
import type { ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { createInterface } from 'node:readline'
import { afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { FolderInUse, holderOf, lockFolder } from '#store/folderLock.ts'
import { bundled } from '../support/bundled.ts'
import { temporaryFolder } from '../support/temporaryFolder.ts'

let program: string
let folder: string
const children: ChildProcess[] = []

beforeAll(async () => {
  program = await bundled('test/support/lockHolder.ts')
})
beforeEach(() => {
  folder = temporaryFolder()
})
afterEach(async () => {
  await Promise.all(children.splice(0).map(killed))
  fs.rmSync(folder, { recursive: true, force: true })
})

/** Another process that asked for the folder, and what it said. */
async function another(...port: string[]) {
  const child = spawn(process.execPath, [program, folder, ...port], { stdio: ['ignore', 'pipe', 'inherit'] })
  children.push(child)
  const [said] = (await once(createInterface(child.stdout), 'line')) as [string]
  return { child, said }
}

async function killed(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return
  const exited = once(child, 'exit')
  child.kill('SIGKILL')
  await exited
}

const inUse = () => {
  try {
    lockFolder(folder).release()
  } catch (error) {
    if (error instanceof FolderInUse) return error
    throw error
  }
  return undefined
}

test('a second process is told who has the folder, and at which port it can be asked', async () => {
  const { child, said } = await another('4321')
  expect(said).toBe('holds')
  expect(inUse()?.holder).toMatchObject({ pid: child.pid, port: 4_321, host: os.hostname() })
  expect(holderOf(folder)).toEqual(inUse()?.holder)
})

test('a holder without a server has no port', async () => {
  await another()
  expect(inUse()?.holder.port).toBeNull()
})

test('a folder whose holder was killed is free', async () => {
  const { child } = await another()
  await killed(child)
  expect(holderOf(folder)).toBeNull()
  expect(inUse()).toBeUndefined()
})

test('of many that find the same dead lock exactly one gets the folder', async () => {
  const { child } = await another()
  await killed(child)
  const said = (await Promise.all(Array.from({ length: 8 }, () => another()))).map((one) => one.said)
  expect(said.filter((words) => words === 'holds')).toHaveLength(1)
  expect(new Set(said).size).toBe(2) // and all the others name that one
})

test('the same process cannot have the folder twice, but again', () => {
  const lock = lockFolder(folder)
  expect(inUse()?.holder.pid).toBe(process.pid)
  lock.release()
  expect(inUse()).toBeUndefined()
  expect(fs.readdirSync(folder)).toEqual([])
})

test('another process with the number of the dead one does not hold the folder', () => {
  fs.writeFileSync(path.join(folder, 'in-use.json'), JSON.stringify({ ...holder(), processStart: 'long ago' }))
  expect(inUse()).toBeUndefined()
})

test('what a power cut left of a lock is no lock', () => {
  fs.writeFileSync(path.join(folder, 'in-use.json'), '')
  expect(inUse()).toBeUndefined()
})

test('a holder on another machine counts as long as it gives a sign of life', () => {
  const file = path.join(folder, 'in-use.json')
  fs.writeFileSync(file, JSON.stringify({ ...holder(), host: 'elsewhere' }))
  expect(inUse()?.holder.host).toBe('elsewhere')
  const tenMinutesAgo = Date.now() / 1_000 - 600
  fs.utimesSync(file, tenMinutesAgo, tenMinutesAgo)
  expect(inUse()).toBeUndefined()
})

const holder = () => ({ pid: process.pid, processStart: '', host: os.hostname(), port: null })
