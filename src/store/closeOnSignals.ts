/** How a program is asked to stop: from its terminal, by whoever started it, by a terminal that closes. */
const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const

/**
 * Runs `close` when the process is asked to stop, then ends it: an embedded database that is closed opens faster, and leaves
 * no lock behind. Asked again meanwhile, it goes on closing. `close` should first stop taking requests.
 */
export function closeOnSignals(close: () => Promise<void>): void {
  let closing = false
  for (const signal of signals)
    process.on(signal, () => {
      if (closing) return
      closing = true
      void close().then(
        () => process.exit(0),
        () => process.exit(1),
      )
    })
}
