import type { ReactNode } from 'react'
import { Link } from './Link.tsx'
import '../style/sheet.css'

/** A page meant for paper; its buttons, and all that stands round the room, stay on the screen. */
export function Sheet({ back, children }: { readonly back: string; readonly children: ReactNode }) {
  return (
    <article className="printed">
      <div className="printed-taps">
        <button type="button" className="button main" onClick={() => print()}>
          Print this
        </button>
        <Link to={back} className="button link-button">
          Back
        </Link>
      </div>
      {children}
    </article>
  )
}
