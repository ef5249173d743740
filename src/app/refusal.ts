/** What kind of "no" it is. The api turns it into a status, the command line into an exit code. */
export type RefusalCode = 'invalid' | 'not-found' | 'conflict' | 'in-use' | 'too-large'

/** What is wrong with one field of what was asked, in the person's own words and numbers. */
export type FieldProblem = { readonly path: string; readonly message: string }

/** The app will not do what was asked. Its sentence is shown as it stands: plain, without ids or codes. */
export class Refusal extends Error {
  override readonly name = 'Refusal'
  readonly code: RefusalCode
  readonly fields: readonly FieldProblem[]

  constructor(code: RefusalCode, sentence: string, fields: readonly FieldProblem[] = []) {
    super(sentence)
    this.code = code
    this.fields = fields
  }
}
