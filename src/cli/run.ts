/** From words to an exit code: finds the command, and says what went wrong in one sentence. */
import { Refusal } from '#app/refusal.ts'
import { FolderInUse } from '#store/folderLock.ts'
import { faultText, troubleOf } from '#store/troubles.ts'
import { type Call, exitCodes, type Options, type Output, readCall } from './call.ts'
import { doctorCommand } from './doctorCommand.ts'
import { help } from './help.ts'
import { logCommand } from './logCommand.ts'
import { nowCommand } from './nowCommand.ts'
import { backupCommand, restoreCommand } from './backupCommands.ts'
import { planCommand } from './planCommand.ts'
import { promiseCommand } from './promiseCommand.ts'
import { exampleCommand, exportCommand, importCommand } from './transferCommands.ts'
import { runsCommand } from './runsCommand.ts'
import { windowCommand } from './windowCommand.ts'

type Command = {
  readonly run: (call: Call) => Promise<number>
  /** Words after the command's own, at most. */
  readonly words: number
  /** Options of its own, besides those that every command knows. */
  readonly options?: readonly string[]
}

const everywhere = ['help', 'json', 'folder', 'now', 'units', 'seed', 'effort']
const ofEntries = ['count', 'design', 'step', 'cover', 'spot', 'glaze', 'cause', 'into', 'by', 'at']

const commands: Readonly<Record<string, Command>> = {
  plan: { run: planCommand, words: 1, options: ['days'] },
  now: { run: nowCommand, words: 1 },
  runs: { run: runsCommand, words: 1 },
  promise: { run: promiseCommand, words: 3, options: ['glaze'] },
  window: { run: windowCommand, words: 1, options: ['thickness', 'spot', 'clay', 'at'] },
  log: { run: logCommand, words: 3, options: ofEntries },
  import: { run: importCommand, words: 2, options: ['replace', 'spot', 'outdoor', 'set-point'] },
  export: { run: exportCommand, words: 1 },
  backup: { run: backupCommand, words: 0 },
  restore: { run: restoreCommand, words: 1 },
  example: { run: exampleCommand, words: 0 },
  doctor: { run: doctorCommand, words: 1 },
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
    if (options.said['help'] === true || words[0] === undefined || words[0] === 'help') {
      output.out(help)
      return exitCodes.done
    }
    return await commandOf(words, options).run({ words, options, output, ...given })
  } catch (error) {
    return told(error, output)
  }
}

/** @throws Refusal `invalid` for a command that there is not, and for what it would pass over in silence */
function commandOf([name, ...words]: readonly string[], { said }: Options): Command {
  const command = Object.hasOwn(commands, name!) ? commands[name!] : undefined
  if (!command) throw new Refusal('invalid', `There is no command “${name}”. \`help\` lists what there is.`)
  const known = [...everywhere, ...(command.options ?? [])]
  const unknown = Object.keys(said).find((option) => !known.includes(option))
  if (unknown !== undefined) throw new Refusal('invalid', `“${name}” knows no --${unknown}. \`help\` says how it goes.`)
  const over = words[command.words]
  if (over !== undefined) throw new Refusal('invalid', `“${over}” is one word too many. \`help\` says how it goes.`)
  return command
}

function told(error: unknown, output: Output): number {
  if (error instanceof FolderInUse) {
    output.err(error.message)
    return exitCodes.inUse
  }
  if (error instanceof Refusal) {
    output.err(error.message)
    // What is at fault once is in the sentence already.
    const fields = error.fields.length > 1 ? error.fields : []
    for (const { path, message } of fields.slice(0, MOST_FIELDS)) output.err(`  ${path}: ${message}`)
    if (fields.length > MOST_FIELDS) output.err(`  and ${fields.length - MOST_FIELDS} more`)
    return error.code === 'in-use' ? exitCodes.inUse : exitCodes.badInput
  }
  const trouble = troubleOf(error)
  output.err(trouble?.sentence ?? `Something went wrong, and it is a fault of this program: ${faultText(error)}`)
  return exitCodes.fault
}

const MOST_FIELDS = 20
