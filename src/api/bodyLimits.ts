import { bodyLimit } from 'hono/body-limit'
import { Refusal } from '#app/refusal.ts'

const megabyte = 1_000_000

const atMost = (megabytes: number) =>
  bodyLimit({
    maxSize: megabytes * megabyte,
    onError: () => {
      throw new Refusal('too-large', `That is too much at once: at most ${megabytes} MB can be sent here.`)
    },
  })

export const usualBody = atMost(1)
/** A whole studio with its logbook. */
export const importBody = atMost(20)
