import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { answerOf, client } from '../data/client.ts'

/** The first thing anybody sees: a studio to walk round in, or one's own. */
export function Welcome() {
  const queries = useQueryClient()
  const [isOpening, setOpening] = useState(false)
  const open = async () => {
    setOpening(true)
    await answerOf(client.example.$post())
    await queries.invalidateQueries()
  }
  return (
    <section className="welcome">
      <h1>Clay will not wait. Wareboard knows how long it does.</h1>
      <button type="button" className="button main" disabled={isOpening} onClick={() => void open()}>
        Walk round the example studio
      </button>
    </section>
  )
}
