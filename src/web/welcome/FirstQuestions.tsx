import { type ReactNode, useState } from 'react'
import { Field } from '#web/app/Field.tsx'
import { answerOf, client, Unmet } from '../data/client.ts'
import { useSignal } from '../data/signal.ts'
import { units as chosenUnits } from '../data/useWords.ts'
import { airNames, type Answers, beginningOf, buildNames, dayNames, usualAnswers } from './answers.ts'

const kilnNames = {
  'small round': { metric: 'Round, about 44 cm across inside', us: 'Round, about 17 in across inside' },
  'middling round': { metric: 'Round, about 58 cm across inside', us: 'Round, about 23 in across inside' },
  'large round': { metric: 'Round, about 71 cm across inside', us: 'Round, about 28 in across inside' },
  square: { metric: 'Square, about 46 cm wide inside', us: 'Square, about 18 in wide inside' },
} as const

/** Five questions to a first plan of one's own; most answers are there already. */
export function FirstQuestions({ onBegun }: { readonly onBegun: () => Promise<void> }) {
  const units = useSignal(chosenUnits)
  const [answers, setAnswers] = useState<Answers>(() => usualAnswers(units))
  const [faults, setFaults] = useState<ReadonlyMap<string, string>>(new Map())
  const [said, setSaid] = useState('')
  const [isSending, setSending] = useState(false)
  const change = (part: Partial<Answers>) => setAnswers({ ...answers, ...part })

  const begin = async () => {
    setSending(true)
    setSaid('')
    setFaults(new Map())
    try {
      const zone = Intl.DateTimeFormat().resolvedOptions().timeZone
      await answerOf(client.begin.$post({ json: beginningOf(answers, zone, units) as never }))
      await onBegun()
    } catch (error) {
      const fields = error instanceof Unmet ? (error.problem.fields ?? []) : []
      setFaults(new Map(fields.map(({ path, message }) => [path, message])))
      setSaid(sentenceFor(error, fields.length))
    } finally {
      setSending(false)
    }
  }

  const text = (label: string, key: TextKey, path: string, more: InputMore = {}) => (
    <Field label={label} fault={faults.get(path)}>
      {(props) => (
        <input {...props} {...more} value={answers[key]} onChange={({ target }) => change({ [key]: target.value })} />
      )}
    </Field>
  )
  const choice = <Key extends 'air' | 'build' | 'kiln' | 'glazeCone'>(
    label: string,
    key: Key,
    names: Readonly<Record<Answers[Key], string>>,
  ) => (
    <Field label={label}>
      {(props) => (
        <select
          {...props}
          value={answers[key]}
          onChange={({ target }) => change({ [key]: target.value } as Partial<Answers>)}
        >
          {Object.entries<string>(names).map(([value, name]) => (
            <option key={value} value={value}>
              {name}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
  const span = (label: string, from: TextKey, to: TextKey, path: string) => (
    <div className="spans pair">
      {text(`${label}, from`, from, `${path}.from`, { type: 'time' })}
      {text('to', to, `${path}.to`, { type: 'time' })}
    </div>
  )
  const unit = units === 'us' ? 'in' : 'mm'

  return (
    <form
      id="own"
      className="first-questions"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        void begin()
      }}
    >
      <h2>Five questions to a first plan of your own</h2>
      <Question name="1. Who makes, and when?">
        {text('Your name', 'makerName', 'makerName', { autoComplete: 'given-name' })}
        {text('The studio’s name, if it has one', 'studioName', 'studioName')}
        <Days
          chosen={answers.makingDays}
          fault={faults.get('makingDays')}
          onChange={(days) => change({ makingDays: days })}
        />
        {span('Hands on clay', 'makingFrom', 'makingTo', 'making')}
        {span('A few minutes to look in, every day', 'lookInsFrom', 'lookInsTo', 'lookIns')}
        {span('Awake and at home, able to mind a kiln', 'kilnWatchFrom', 'kilnWatchTo', 'kilnWatch')}
      </Question>
      <Question name="2. How is the air, and how much clay is there?">
        {choice('The air where ware waits', 'air', airNames)}
        {text(`Clay on hand, ${units === 'us' ? 'lb' : 'kg'}`, 'clay', 'clayKg', { inputMode: 'decimal' })}
      </Question>
      <Question name="3. Which kiln?">
        {choice('Its chamber', 'kiln', {
          'small round': kilnNames['small round'][units],
          'middling round': kilnNames['middling round'][units],
          'large round': kilnNames['large round'][units],
          square: kilnNames.square[units],
        })}
        {choice('Glaze firing to cone', 'glazeCone', { '6': '6, mid fire', '10': '10, high fire' })}
      </Question>
      <Question name="4. What do you make?">
        {text('The piece', 'pieceName', 'piece.name', { placeholder: 'such as butter dish' })}
        {choice('How it is built', 'build', buildNames)}
        <div className="spans">
          {text(answers.build === 'cylinder' ? `Across, ${unit}` : `Length, ${unit}`, 'length', 'piece.lengthMm')}
          {answers.build !== 'cylinder' && text(`Width, ${unit}`, 'width', 'piece.widthMm')}
          {text(`Height, ${unit}`, 'height', 'piece.heightMm')}
          {text(`Slab, ${unit} thick`, 'thickness', 'piece.thicknessMm')}
        </div>
        <p className="quiet small">Length, width and height as finished, after the glaze firing.</p>
        <div className="spans">
          {text('Minutes to roll and cut one', 'cutMin', 'piece.cutMin', { inputMode: 'decimal' })}
          {text('to build it', 'buildMin', 'piece.buildMin', { inputMode: 'decimal' })}
          {text('to glaze, grind and pack it', 'finishMin', 'piece.finishMin', { inputMode: 'decimal' })}
        </div>
      </Question>
      <Question name="5. What is ordered first?">
        {text('For whom', 'orderName', 'order.name')}
        <div className="spans">
          {text('How many', 'count', 'order.count', { inputMode: 'numeric' })}
          {text('Due', 'dueDate', 'order.dueDate', { type: 'date' })}
        </div>
      </Question>
      <div role="alert">{said !== '' && <p className="fault">{said}</p>}</div>
      <button type="submit" className="button main" disabled={isSending}>
        {isSending ? 'Beginning…' : 'Make my first plan'}
      </button>
      <p className="quiet small">
        All else is set to what is usual: one rack, twelve in the hundred of shrinkage, a middling bisque. The dates are
        wide at first and narrow as you log how your clay dries.
      </p>
    </form>
  )
}

type TextKey = { [Key in keyof Answers]: string extends Answers[Key] ? Key : never }[keyof Answers]
type InputMore = {
  readonly type?: 'time' | 'date'
  readonly inputMode?: 'decimal' | 'numeric'
  readonly placeholder?: string
  readonly autoComplete?: string
}

function sentenceFor(error: unknown, faults: number): string {
  if (!(error instanceof Unmet))
    return 'The studio’s computer did not answer. What you typed is still here; try once more.'
  if (faults === 0) return error.message
  return faults === 1 ? 'One answer above cannot stay as it is.' : `${faults} answers above cannot stay as they are.`
}

const Question = ({ name, children }: { readonly name: string; readonly children: ReactNode }) => (
  <fieldset>
    <legend>{name}</legend>
    {children}
  </fieldset>
)

type Day = keyof typeof dayNames

function Days({
  chosen,
  fault,
  onChange,
}: {
  readonly chosen: readonly Day[]
  readonly fault: string | undefined
  readonly onChange: (days: Day[]) => void
}) {
  const days = Object.keys(dayNames) as Day[]
  const toggled = (day: Day) => days.filter((other) => (other === day ? !chosen.includes(day) : chosen.includes(other)))
  return (
    <fieldset className="days">
      <legend>Days on which you make</legend>
      {days.map((day) => (
        <label key={day}>
          <input type="checkbox" checked={chosen.includes(day)} onChange={() => onChange(toggled(day))} />
          <span>{dayNames[day].slice(0, 3)}</span>
          <span className="visually-hidden">{dayNames[day].slice(3)}</span>
        </label>
      ))}
      {fault !== undefined && <p className="fault">{fault}</p>}
    </fieldset>
  )
}
