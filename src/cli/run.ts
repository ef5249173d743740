/** From words to an exit code: finds the command, and says what went wrong in one sentence. */
import { Refusal } from '#app/refusal.ts'
import { FolderInUse } from '#store/folderLock.ts'
import { type Call, exitCodes, type Output, readCall } from './call.ts'
import { doctorCommand } from './doctorCommand.ts'
import { help } from './help.ts'
import { logCommand } from './logCommand.ts'
import { nowCommand } from './nowCommand.ts'
import { planCommand } from './planCommand.ts'
import { promiseCommand } from './promiseCommand.ts'
import { exampleCommand, exportCommand, importCommand } from './transferCommands.ts'
import { windowCommand } from './windowCommand.ts'

const commands: Readonly<Record<string, (call: Call) => Promise<number>>> = {
  plan: planCommand,
  now: nowCommand,
  promise: promiseCommand,
  window: windowCommand,
  log: logCommand,
  import: importCommand,
  export: exportCommand,
  example: exampleCommand,
  doctor: doctorCommand,
}

type Surroundings = Pick<Call, 'input' | 'exampleAt'> & {
  readonly env: Readonly<Record<string, string | undefined>>
  readonly clockMs: number
}

/** Runs one command. Never throws: a fault is an exit code and a sentence. */
export async function runCommand(
  argv: readonly string[],
  output: Output,
  { env, clockMs, ...given }: Surroundings,
): Promise<number> {
  try {
    const { words, options } = readCall(argv, env, clockMs)
    const command = commands[words[0] ?? 'help']
    if (options.said['help'] === true || words[0] === undefined || words[0] === 'help') {
      output.out(help)
      return exitCodes.done
    }
    if (!command) throw new Refusal('invalid', `There is no command “${words[0]}”. \`help\` lists what there is.`)
    return await command({ words, options, output, ...given })
  } catch (error) {
    return told(error, output)
  }
}

function told(error: unknown, output: Output): number {
  if (error instanceof FolderInUse) {
    output.err(error.message)
    return exitCodes.inUse
  }
  if (error instanceof Refusal) {
    output.err(error.message)
    for (const { path, message } of (error.fields ?? []).slice(0, 20)) output.err(`  ${path}: ${message}`)
    return error.code === 'in-use' ? exitCodes.inUse : exitCodes.badInput
  }
  output.err(`Something went wrong: ${(error as Error).message}`)
  return exitCodes.fault
}
