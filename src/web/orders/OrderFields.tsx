import type { OrderRecord } from '#contract/order.ts'
import { oddsText } from '#words/amounts.ts'
import { Field } from '#web/app/Field.tsx'
import { newId } from '../data/device.ts'
import type { Studio } from '../data/queries.ts'
import { type Draft, type DraftFaults, type DraftLine, emptyLine } from './draft.ts'
import { CountField, DesignField, GlazeField } from './fields.tsx'

type Props = {
  readonly draft: Draft
  readonly faults: DraftFaults
  readonly studio: Studio
  readonly change: (draft: Draft) => void
}

export const kindTexts: Readonly<Record<OrderRecord['kind'], string>> = {
  customer: 'A customer',
  market: 'Market day',
  stock: 'Stock to keep',
}

const oddsOffered = [0.7, 0.8, 0.9, 0.95] as const

/** The fields of an order, new or amended, each with what is wrong with it. */
export function OrderFields({ draft, faults, studio, change }: Props) {
  const put = (part: Partial<Draft>) => change({ ...draft, ...part })
  const putLine = (at: number, line: DraftLine) => put({ lines: draft.lines.with(at, line) })
  const odds = [...new Set([...oddsOffered, draft.oddsWanted])].toSorted((a, b) => a - b)
  return (
    <>
      <Field label="For whom or what" fault={faults.name}>
        {(props) => <input {...props} value={draft.name} onChange={({ target }) => put({ name: target.value })} />}
      </Field>
      <Field label="It is for">
        {(props) => (
          <select
            {...props}
            value={draft.kind}
            onChange={({ target }) => put({ kind: target.value as OrderRecord['kind'] })}
          >
            {Object.entries(kindTexts).map(([kind, text]) => (
              <option key={kind} value={kind}>
                {text}
              </option>
            ))}
          </select>
        )}
      </Field>
      {draft.lines.map((line, i) => (
        <LineFields
          key={line.id}
          line={line}
          faults={faults.lines[line.id] ?? {}}
          studio={studio}
          change={(next) => putLine(i, next)}
          remove={draft.lines.length > 1 ? () => put({ lines: draft.lines.toSpliced(i, 1) }) : null}
        />
      ))}
      <button
        type="button"
        className="button"
        onClick={() => put({ lines: [...draft.lines, emptyLine(newId('line'))] })}
      >
        Something else as well
      </button>
      <Field label="Due" fault={faults.dueDate}>
        {(props) => (
          <input
            {...props}
            type="date"
            value={draft.dueDate}
            onChange={({ target }) => put({ dueDate: target.value })}
          />
        )}
      </Field>
      <Field label="How sure it should be">
        {(props) => (
          <select
            {...props}
            value={draft.oddsWanted}
            onChange={({ target }) => put({ oddsWanted: Number(target.value) })}
          >
            {odds.map((share) => (
              <option key={share} value={share}>
                {oddsText(share)}
              </option>
            ))}
          </select>
        )}
      </Field>
      {faults.whole !== undefined && (
        <p className="fault" role="alert">
          {faults.whole}
        </p>
      )}
    </>
  )
}

type LineProps = {
  readonly line: DraftLine
  readonly faults: DraftFaults['lines'][string]
  readonly studio: Studio
  readonly change: (line: DraftLine) => void
  /** null: an order has at least one. */
  readonly remove: (() => void) | null
}

function LineFields({ line, faults, studio, change, remove }: LineProps) {
  const design = studio.designs.find(({ id }) => id === line.designId)
  return (
    <fieldset className="order-fields">
      <legend className="visually-hidden">{design?.name ?? 'What is ordered'}</legend>
      <DesignField
        studio={studio}
        value={line.designId}
        fault={faults.designId}
        change={(designId) => change({ ...line, designId, glazeId: '' })}
      />
      <GlazeField
        studio={studio}
        designId={line.designId}
        none="Decided later"
        value={line.glazeId}
        fault={faults.glazeId}
        change={(glazeId) => change({ ...line, glazeId })}
      />
      <CountField
        label="How many"
        value={line.count}
        fault={faults.count}
        change={(count) => change({ ...line, count })}
      />
      {remove && (
        <button type="button" className="button" onClick={remove}>
          Leave this out
        </button>
      )}
    </fieldset>
  )
}
