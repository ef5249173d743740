import { lazy, Suspense, useEffect } from 'react'
import { useStudio } from '../data/queries.ts'
import { useAddress } from './address.ts'
import { Guard } from './Guard.tsx'
import { Header } from './Header.tsx'
import { Link } from './Link.tsx'
import { roomAt } from './rooms.ts'
import { Toasts } from './Toasts.tsx'

const Welcome = lazy(() => import('../welcome/Welcome.tsx').then(({ Welcome }) => ({ default: Welcome })))

export function App() {
  const address = useAddress()
  const studio = useStudio()
  const room = roomAt(address)
  const title = studio.data === null ? 'Welcome' : (room?.name ?? 'Not found')
  useEffect(() => {
    document.title = `${title} · Wareboard`
  }, [title])
  return (
    <>
      <a className="skip" href="#room">
        Skip to the room
      </a>
      <Header hasStudio={Boolean(studio.data)} studioName={studio.data?.studio.name ?? null} address={address} />
      <main id="room" tabIndex={-1}>
        <Guard key={title}>
          <Suspense fallback={<Waiting />}>{content()}</Suspense>
        </Guard>
      </main>
      <Toasts />
    </>
  )

  function content() {
    if (studio.data === null) return <Welcome />
    if (studio.data === undefined) return studio.isError ? <Unreachable /> : <Waiting />
    return room ? <room.Room /> : <NoRoom />
  }
}

const Waiting = () => (
  <p className="waiting" role="status">
    Opening…
  </p>
)

const Unreachable = () => (
  <section className="empty">
    <h1>The studio could not be read</h1>
    <p>Wareboard will show it as soon as its server answers again.</p>
  </section>
)

const NoRoom = () => (
  <section className="empty">
    <h1>There is nothing at this address</h1>
    <p>
      <Link to="/">Go to the bench</Link>
    </p>
  </section>
)
