import { link, planning } from '../data/events.ts'
import { forget, taps } from '../data/outbox.ts'
import { useSignal } from '../data/signal.ts'
import { setUnits, units } from '../data/useWords.ts'
import { Link } from './Link.tsx'
import { rooms } from './rooms.ts'
import { setTheme, theme, themes } from './theme.ts'

type Props = { readonly hasStudio: boolean; readonly studioName: string | null; readonly address: string }

export function Header({ hasStudio, studioName, address }: Props) {
  return (
    <>
      <header className="head">
        <Link to="/" className="mark">
          <Mark />
          <span>{studioName ?? 'Wareboard'}</span>
        </Link>
        {hasStudio && (
          <nav className="rooms" aria-label="Rooms">
            {rooms.map(({ path, name }) => (
              <Link key={path} to={path} current={address === path}>
                {name}
              </Link>
            ))}
          </nav>
        )}
        <div className="asides">
          <PlanningNote />
          <UnitSwitch />
          <ThemeSwitch />
        </div>
      </header>
      <Banner />
    </>
  )
}

/** Three boards of ware, of which the lowest is full. */
const Mark = () => (
  <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true" className="mark-drawing">
    <path d="M2 8h20M2 15h20M2 22h20" />
    <path d="M5 8V5h4v3M11 15v-4h6v4M4 22v-3h4v3M10 22v-5h4v5M16 22v-3h4v3" />
  </svg>
)

const notes = {
  idle: '',
  planning: 'Planning…',
  improving: 'Looking for a better plan…',
  failed: 'The last plan stands',
} as const

function PlanningNote() {
  const now = useSignal(planning)
  return (
    <span className="planning" role="status" data-planning={now}>
      {notes[now]}
    </span>
  )
}

const themeNames = { device: 'As the device', light: 'Light', dark: 'Dark' } as const

function ThemeSwitch() {
  const now = useSignal(theme)
  return (
    <label className="theme">
      <span className="visually-hidden">Light or dark</span>
      <select value={now} onChange={(event) => setTheme(event.target.value as typeof now)}>
        {themes.map((name) => (
          <option key={name} value={name}>
            {themeNames[name]}
          </option>
        ))}
      </select>
    </label>
  )
}

function UnitSwitch() {
  return (
    <label className="theme">
      <span className="visually-hidden">Units</span>
      <select value={useSignal(units)} onChange={(event) => setUnits(event.target.value === 'us' ? 'us' : 'metric')}>
        <option value="metric">mm, °C</option>
        <option value="us">inches, °F</option>
      </select>
    </label>
  )
}

function Banner() {
  const isLost = useSignal(link) === 'lost'
  const shown = useSignal(taps)
  const waiting = shown.filter(({ status }) => status === 'waiting').length
  const refused = shown.findLast(({ status }) => status === 'refused')
  return (
    <div role="status" aria-live="polite">
      {isLost && (
        <p className="banner">
          <strong>No connection to the studio’s computer.</strong> What you see is the last that was known. You can go
          on: taps are kept here and sent when it is back{waiting > 0 ? ` (${waiting} waiting)` : ''}.
        </p>
      )}
      {refused && (
        <p className="banner">
          <strong>Not taken:</strong> {refused.said}. {refused.why}{' '}
          <button type="button" className="button" onClick={() => forget(refused)}>
            I have read it
          </button>
        </p>
      )}
    </div>
  )
}
