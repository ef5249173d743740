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
/** All that a device did in a season while it was away. */
export const logBody = atMost(10)
/** A whole studio with its logbook and the air of some years; what goes out must come in again. */
export const importBody = atMost(150)
