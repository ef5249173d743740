import * as library from 'rrule'

// The package is CommonJS to Node, which puts its exports under `default`, and a module to bundlers, which do not.
const seen: typeof library & { readonly default?: typeof library } = library

export const { RRule } = seen.default ?? seen
