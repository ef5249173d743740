import type { Reporter } from 'vitest/node'

/** Ends the output with one line that any log reader understands: `N passed, N failed`. */
export const closingLine: Reporter = {
  onTestRunEnd(modules, errors) {
    const count = { passed: 0, failed: errors.length, skipped: 0, pending: 0 }
    for (const module of modules) {
      const tests = [...module.children.allTests()]
      // A file that fails before its first test (a broken import, say) has no failed test of its own.
      if (module.state() === 'failed' && tests.every((test) => test.result().state !== 'failed')) count.failed++
      for (const test of tests) count[test.result().state]++
    }
    const skipped = count.skipped + count.pending
    process.stdout.write(
      `\n${count.passed} passed, ${count.failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}\n`,
    )
  },
}
