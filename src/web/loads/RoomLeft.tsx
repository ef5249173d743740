import { useState } from 'react'
import type { PlannedFiring } from '#core/planning/plan.ts'
import type { KilnRecord } from '#contract/kiln.ts'
import type { Studio } from '../data/queries.ts'
import { designsFor, MOST_ASKED, roomFor } from './roomLeft.ts'

type Props = { readonly firing: PlannedFiring; readonly kiln: KilnRecord; readonly studio: Studio }

/** Asked only on demand, one design after another: each is a load packed anew. */
export function RoomLeft({ firing, kiln, studio }: Props) {
  const [found, setFound] = useState<readonly { readonly name: string; readonly count: number }[] | null>(null)
  const [isAsking, setAsking] = useState(false)
  const ask = async () => {
    setAsking(true)
    setFound([])
    for (const { id, name } of designsFor(firing, studio)) {
      // The screen is drawn between two packings.
      await new Promise((done) => setTimeout(done))
      const count = roomFor(id, firing, kiln, studio)
      setFound((known) => [...(known ?? []), { name, count }])
    }
    setAsking(false)
  }
  const fitting = found?.filter(({ count }) => count > 0) ?? []
  return (
    <div>
      <button type="button" className="button" disabled={isAsking} onClick={ask}>
        What would still fit?
      </button>
      <div role="status">
        {isAsking && <p className="quiet">Packing…</p>}
        {found && !isAsking && fitting.length === 0 && <p>Nothing more of any design that is fired like this.</p>}
        {fitting.length > 0 && (
          <>
            <p className="quiet small">One kind at a time, beside what is planned:</p>
            <ul>
              {fitting.map(({ name, count }) => (
                <li key={name}>
                  {count === MOST_ASKED ? `${count} or more` : count} × {name}
                </li>
              ))}
            </ul>
          </>
        )}
      </div>
    </div>
  )
}
