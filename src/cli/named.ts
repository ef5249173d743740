/** Things by what a person calls them. */
import { Refusal } from '#app/refusal.ts'

type Thing = { readonly id: string; readonly name: string }

/**
 * By its id, or by its name however it is written: “Tea tray” is also tea-tray and tea trays.
 * @param what one of the things, for the sentence that says there is none
 * @throws Refusal `not-found` with the names that there are
 */
export function named<Found extends Thing>(things: readonly Found[], wanted: string, what: string): Found {
  const found = findNamed(things, wanted)
  if (found) return found
  const names = things.map(({ id, name }) => (plain(name) === plain(id) ? name : `${name} (${id})`))
  throw new Refusal('not-found', `There is no ${what} “${wanted}”; there are: ${names.join(', ') || 'none yet'}.`)
}

export const findNamed = <Found extends Thing>(things: readonly Found[], wanted: string): Found | undefined =>
  things.find(({ id }) => id === wanted) ??
  things.find(({ id, name }) => [plain(name), `${plain(name)}s`, plain(id)].includes(plain(wanted)))

export function namedOrFirst<Found extends Thing>(
  things: readonly Found[],
  wanted: string | undefined,
  what: string,
): Found {
  if (wanted !== undefined) return named(things, wanted, what)
  const [first] = things
  if (!first) throw new Refusal('not-found', `There is no ${what} yet.`)
  return first
}

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
