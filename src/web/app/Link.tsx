import type { MouseEvent, ReactNode } from 'react'
import { goTo } from './address.ts'

type Props = {
  readonly to: string
  readonly className?: string
  readonly current?: boolean
  readonly children: ReactNode
}

/** A link within the app: a plain click changes the room, any other does what the browser does with links. */
export function Link({ to, className, current, children }: Props) {
  return (
    <a
      href={to}
      className={className}
      aria-current={current ? 'page' : undefined}
      onClick={(event) => follow(event, to)}
    >
      {children}
    </a>
  )
}

function follow(event: MouseEvent, to: string): void {
  if (event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return
  event.preventDefault()
  goTo(to)
}
