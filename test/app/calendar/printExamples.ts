import { everyExample } from './everyExample.ts'

// Run as a process of its own: the offset shows that this process does live in another zone.
const offsetMin = new Date(2026, 6, 1).getTimezoneOffset()
process.stdout.write(JSON.stringify({ offsetMin, examples: everyExample() }))
