/** A field with its label, and in place what is wrong with it. */
import { type ReactNode, useId } from 'react'

type FieldProps = {
  readonly id: string
  readonly 'aria-invalid': boolean
  readonly 'aria-describedby': string | undefined
}

export function Field({
  label,
  fault,
  children,
}: {
  readonly label: string
  readonly fault?: string | undefined
  readonly children: (props: FieldProps) => ReactNode
}) {
  const id = useId()
  const faultId = `${id}-fault`
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {children({
        id,
        'aria-invalid': fault !== undefined,
        'aria-describedby': fault === undefined ? undefined : faultId,
      })}
      {fault !== undefined && (
        <p className="fault" id={faultId}>
          {fault}
        </p>
      )}
    </div>
  )
}
