/** CPU seconds of this process since the call, whenever asked: the machine may be shared, so no clock on the wall. */
export function meter(): () => number {
  const begun = process.cpuUsage()
  return () => {
    const { user, system } = process.cpuUsage(begun)
    return (user + system) / 1e6
  }
}
