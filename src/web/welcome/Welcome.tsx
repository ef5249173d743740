import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { answerOf, client } from '../data/client.ts'
import { FirstQuestions } from './FirstQuestions.tsx'
import './welcome.css'

/** The first thing anybody sees: a studio to walk round in, or one's own. */
export function Welcome() {
  const queries = useQueryClient()
  const [isOpening, setOpening] = useState(false)
  const [fault, setFault] = useState('')
  const entered = () => queries.invalidateQueries()
  const openExample = async () => {
    setOpening(true)
    setFault('')
    try {
      await answerOf(client.example.$post())
      await entered()
    } catch {
      setFault('The example could not be opened: the studio’s computer did not answer. Try once more.')
    } finally {
      setOpening(false)
    }
  }
  return (
    <section className="welcome">
      <h1>Clay will not wait. Wareboard knows how long it does.</h1>
      <p className="lead">
        It turns your orders, your hours and the air of your studio into a week of making that works: what to start
        when, how to cover it, what shares a firing, and what date you can honestly promise.
      </p>
      <div className="ways">
        <button type="button" className="button main" disabled={isOpening} onClick={() => void openExample()}>
          {isOpening ? 'Opening…' : 'Walk round the example studio'}
        </button>
        <a href="#own">or begin with your own, below</a>
      </div>
      {fault !== '' && (
        <p className="fault" role="alert">
          {fault}
        </p>
      )}
      <FirstQuestions onBegun={entered} />
    </section>
  )
}
