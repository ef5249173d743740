type Props = {
  readonly label: string
  readonly value: number
  readonly least: number
  readonly most: number
  readonly onChange: (value: number) => void
}

/** A count that wet fingers can set. */
export function Stepper({ label, value, least, most, onChange }: Props) {
  const set = (next: number) => onChange(Math.min(most, Math.max(least, next)))
  return (
    <div className="stepper" role="group" aria-label={label}>
      <button
        type="button"
        className="button"
        aria-label={`${label}: one less`}
        disabled={value <= least}
        onClick={() => set(value - 1)}
      >
        −
      </button>
      <output aria-live="polite">{value}</output>
      <button
        type="button"
        className="button"
        aria-label={`${label}: one more`}
        disabled={value >= most}
        onClick={() => set(value + 1)}
      >
        +
      </button>
    </div>
  )
}
