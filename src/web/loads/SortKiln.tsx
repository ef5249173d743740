import { type SubmitEvent, useState } from 'react'
import { type LossCause, lossCauses } from '#core/logbook/entry.ts'
import type { FiringState } from '#core/logbook/state.ts'
import { lossTexts } from '#words/trade.ts'
import { typedCount } from '#words/typed.ts'
import type { Studio } from '../data/queries.ts'
import { useLog } from '../data/useLog.ts'
import { allGood, type Sorted, sortedNames, sortingFault } from './sorting.ts'

type Typed = Sorted & { readonly cause: LossCause }
type Props = { readonly firing: FiringState; readonly studio: Studio }

const names = { good: 'Good', second: 'Seconds', refire: 'Fire again', lost: 'Lost' } as const

/** All that was in a kiln, on one screen: most of it good, until said otherwise. */
export function SortKiln({ firing, studio }: Props) {
  const log = useLog()
  const [rows, setRows] = useState<readonly Typed[]>(() =>
    firing.members.map(({ count }) => ({ ...allGood(count), cause: 'cracked' })),
  )
  const [asked, setAsked] = useState(false)
  const [isKept, setKept] = useState(false)
  const faults = rows.map((row, i) => sortingFault(row, firing.members[i]?.count ?? 0))
  const change = (at: number, part: Partial<Typed>) =>
    setRows(rows.map((row, i) => (i === at ? { ...row, ...part } : row)))
  const keep = (event: SubmitEvent) => {
    event.preventDefault()
    setAsked(true)
    if (faults.some(Boolean)) return
    const sorted = firing.members.map((member, i) => sortedMember(member, rows[i]!))
    setKept(true)
    log({ happened: [{ kind: 'unloaded', body: { firingId: firing.id, sorted } }], said: 'The kiln is sorted' })
  }
  return (
    <form className="sort" onSubmit={keep} noValidate>
      <h3>Sort what came out</h3>
      {firing.members.map((member, i) => {
        const name = studio.designs.find(({ id }) => id === member.designId)?.name ?? member.designId
        const faultId = `${firing.id}-fault-${i}`
        const fault = asked ? faults[i] : undefined
        return (
          <fieldset key={`${member.runId} ${member.glazeId}`}>
            <legend>
              {member.count} {name}
            </legend>
            {sortedNames.map((field) => (
              <label key={field}>
                {names[field]}
                <input
                  inputMode="numeric"
                  value={rows[i]![field]}
                  aria-invalid={fault !== undefined}
                  aria-describedby={fault ? faultId : undefined}
                  onChange={({ target }) => change(i, { [field]: target.value })}
                />
              </label>
            ))}
            {Number(rows[i]!.lost) > 0 && (
              <label>
                Why
                <select
                  value={rows[i]!.cause}
                  onChange={({ target }) => change(i, { cause: target.value as LossCause })}
                >
                  {lossCauses.map((cause) => (
                    <option key={cause} value={cause}>
                      {lossTexts[cause]}
                    </option>
                  ))}
                </select>
              </label>
            )}
            {fault && (
              <p className="fault" id={faultId} role="alert">
                {fault}
              </p>
            )}
          </fieldset>
        )
      })}
      <button type="submit" className="button main" disabled={isKept}>
        Keep the sorting
      </button>
    </form>
  )
}

function sortedMember(member: FiringState['members'][number], row: Typed) {
  const lost = typedCount(row.lost)
  return {
    ...member,
    good: typedCount(row.good),
    second: typedCount(row.second),
    refire: typedCount(row.refire),
    lost,
    cause: lost > 0 ? row.cause : null,
  }
}
