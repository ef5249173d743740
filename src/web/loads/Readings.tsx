import { type SubmitEvent, useState } from 'react'
import { type Cone, cones } from '#core/firing/cones.ts'
import type { ConeBend } from '#core/logbook/entry.ts'
import type { Context } from '#words/context.ts'
import { coneBendTexts } from '#words/kilns.ts'
import { temperatureText } from '#words/amounts.ts'
import { Field } from '#web/app/Field.tsx'
import { useLog } from '../data/useLog.ts'
import { energyRead, temperatureRead } from './readings.ts'

type Props = {
  readonly firingId: string
  /** The cone that the firing goes to, if it goes by cones. */
  readonly cone: Cone | undefined
  readonly context: Context
}

/** What was read at the kiln: its temperature, a witness cone, the meter. Each is logged by itself. */
export const Readings = (props: Props) => (
  <div className="load-readings">
    <TemperatureForm {...props} />
    <ConeForm {...props} />
    <MeterForm {...props} />
  </div>
)

function TemperatureForm({ firingId, context: { units } }: Props) {
  const log = useLog()
  const [text, setText] = useState('')
  const [fault, setFault] = useState<string>()
  const enter = (event: SubmitEvent) => {
    event.preventDefault()
    const read = temperatureRead(text, units)
    setFault('fault' in read ? read.fault : undefined)
    if ('fault' in read) return
    const said = `Read at the kiln: ${temperatureText(read.value, units)}`
    log({ happened: [{ kind: 'temperature-read', body: { firingId, tempC: read.value } }], said })
    setText('')
  }
  return (
    <form noValidate onSubmit={enter}>
      <Field label={`Temperature now, ${units === 'metric' ? '°C' : '°F'}`} fault={fault}>
        {(props) => (
          <input {...props} inputMode="decimal" value={text} onChange={({ target }) => setText(target.value)} />
        )}
      </Field>
      <button type="submit" className="button">
        Log the temperature
      </button>
    </form>
  )
}

const bends = Object.keys(coneBendTexts) as ConeBend[]

function ConeForm({ firingId, cone: planned }: Props) {
  const log = useLog()
  const [cone, setCone] = useState<Cone>(planned ?? '6')
  const [bend, setBend] = useState<ConeBend>('down')
  const enter = (event: SubmitEvent) => {
    event.preventDefault()
    const said = `Cone ${cone} ${coneBendTexts[bend]}`
    log({ happened: [{ kind: 'cone-read', body: { firingId, cone, bend } }], said })
  }
  return (
    <form onSubmit={enter}>
      <Field label="Witness cone">
        {(props) => (
          <select {...props} value={cone} onChange={({ target }) => setCone(target.value as Cone)}>
            {cones.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        )}
      </Field>
      <Field label="It is">
        {(props) => (
          <select {...props} value={bend} onChange={({ target }) => setBend(target.value as ConeBend)}>
            {bends.map((name) => (
              <option key={name} value={name}>
                {coneBendTexts[name]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <button type="submit" className="button">
        Log the cone
      </button>
    </form>
  )
}

function MeterForm({ firingId }: Props) {
  const log = useLog()
  const [text, setText] = useState('')
  const [fault, setFault] = useState<string>()
  const enter = (event: SubmitEvent) => {
    event.preventDefault()
    const read = energyRead(text)
    setFault('fault' in read ? read.fault : undefined)
    if ('fault' in read) return
    const said = `The firing took ${read.value} kWh`
    log({ happened: [{ kind: 'meter-read', body: { firingId, energyKwh: read.value } }], said })
    setText('')
  }
  return (
    <form noValidate onSubmit={enter}>
      <Field label="Energy it took, kWh" fault={fault}>
        {(props) => (
          <input {...props} inputMode="decimal" value={text} onChange={({ target }) => setText(target.value)} />
        )}
      </Field>
      <button type="submit" className="button">
        Log the meter
      </button>
    </form>
  )
}
