/** Fields that several forms of this room ask alike. */
import { Field } from '#web/app/Field.tsx'
import type { Studio } from '../data/queries.ts'

type Asked = {
  readonly value: string
  readonly fault?: string | undefined
  readonly change: (value: string) => void
}

export const CountField = ({ label, value, fault, change }: Asked & { readonly label: string }) => (
  <Field label={label} fault={fault}>
    {(props) => <input {...props} inputMode="numeric" value={value} onChange={({ target }) => change(target.value)} />}
  </Field>
)

export const DesignField = ({ studio, value, fault, change }: Asked & { readonly studio: Studio }) => (
  <Field label="Design" fault={fault}>
    {(props) => (
      <select {...props} value={value} onChange={({ target }) => change(target.value)}>
        <option value="">Choose one</option>
        {studio.designs.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    )}
  </Field>
)

type GlazeProps = Asked & {
  readonly studio: Studio
  readonly designId: string
  /** What it is called that none is chosen. */
  readonly none: string
}

/** Only glazes that the design is made in. */
export function GlazeField({ studio, designId, none, value, fault, change }: GlazeProps) {
  const glazeIds = studio.designs.find(({ id }) => id === designId)?.glazeIds ?? []
  return (
    <Field label="Glaze" fault={fault}>
      {(props) => (
        <select {...props} value={value} onChange={({ target }) => change(target.value)}>
          <option value="">{none}</option>
          {glazeIds.map((id) => (
            <option key={id} value={id}>
              {studio.glazes.find((glaze) => glaze.id === id)?.name ?? id}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
