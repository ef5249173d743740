/**
 * A script that moves every clock read after it, in a process or in a page, by so many milliseconds; time goes on as
 * ever. So a journey begins on the same morning, whenever it is run.
 */
export const clockScript = (byMs: number): string => `{
  const OwnDate = Date
  globalThis.Date = class extends OwnDate {
    constructor(...given) {
      super(...(given.length === 0 ? [OwnDate.now() + ${byMs}] : given))
    }
    static now() {
      return OwnDate.now() + ${byMs}
    }
  }
}`
