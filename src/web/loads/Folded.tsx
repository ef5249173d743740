import { type ReactNode, useState } from 'react'

type Props = { readonly name: string; readonly children: () => ReactNode }

/** What takes long to draw is drawn when it is unfolded. */
export function Folded({ name, children }: Props) {
  const [isOpen, setOpen] = useState(false)
  return (
    <details onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>{name}</summary>
      {isOpen && children()}
    </details>
  )
}
