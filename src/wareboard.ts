/** The command line's own process: hands its surroundings to the command. */
import { text } from 'node:stream/consumers'
import { exampleZone } from '#db/seed/example/clock.ts'
import { exampleStudioFile } from '#db/seed/exampleStudio.ts'
import { dayAt } from '#app/calendar/zone.ts'
import { exitCodes } from '#cli/call.ts'
import { runCommand } from '#cli/run.ts'
import { troubleOf } from '#store/troubles.ts'

const output = {
  out: (line: string) => void process.stdout.write(`${line}\n`),
  err: (line: string) => void process.stderr.write(`${line}\n`),
}

// Whoever reads may stop reading, as `head` does: that is no fault. A full disk behind `>` is one.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit()
  output.err(`The answer could not be written: ${troubleOf(error)?.sentence ?? error.message}`)
  process.exit(exitCodes.fault)
})
process.stderr.on('error', () => {})

process.exitCode = await runCommand(process.argv.slice(2), output, {
  env: process.env,
  clockMs: Date.now(),
  input: () => text(process.stdin),
  exampleAt: (nowIn) => exampleStudioFile(dayAt(nowIn(exampleZone), exampleZone)),
})
