import { sizeGoingIn } from '#core/planning/facts/pieces.ts'
import type { LoadLevel } from '#core/loading/types.ts'
import type { PlannedFiring } from '#core/planning/plan.ts'
import type { Studio as CoreStudio } from '#core/studio/studio.ts'
import type { KilnRecord } from '#contract/kiln.ts'
import { lengthText } from '#words/amounts.ts'
import type { Context } from '#words/context.ts'
import type { Studio } from '../data/queries.ts'
import { chamberSize, pieceOutlines, runOf, shelfOutlines } from './drawing.ts'

type Props = {
  readonly firing: PlannedFiring
  readonly kiln: KilnRecord
  readonly studio: Studio
  readonly context: Context
}

/** One level from above, to scale; numbers lead to the list. */
export function LevelDrawing({
  level,
  name,
  firing,
  kiln,
  studio,
  context,
}: Props & { level: LoadLevel; name: string }) {
  const { lengthMm, widthMm } = chamberSize(kiln.space.chamber.shape)
  const designOf = (key: string) => {
    const member = firing.members.find(({ runId, designId }) => (runId ?? designId) === runOf(key))
    return studio.designs.find(({ id }) => id === member?.designId)
  }
  const footprintOf = (key: string) => {
    const design = designOf(key)
    return design && sizeGoingIn(studio as unknown as CoreStudio, design as never, firing.kind).footprint
  }
  return (
    <figure className="drawing">
      <svg
        viewBox={`${-lengthMm / 2} ${-widthMm / 2} ${lengthMm} ${widthMm}`}
        role="img"
        aria-label={`${name} from above`}
      >
        {shelfOutlines(level, kiln.space.furniture.shelves).map(({ key, path }) => (
          <path key={key} className="load-shelf" d={path} />
        ))}
        {pieceOutlines(level, footprintOf).map(({ key, path, radiusMm }) => (
          <path key={key} className="load-piece" d={path} strokeWidth={Math.max(1, radiusMm * 2)} />
        ))}
        {level.placements.map(({ key, xMm, yMm }, i) => (
          <text key={key} className="load-mark" x={xMm} y={-yMm} fontSize={lengthMm / 22}>
            {i + 1}
          </text>
        ))}
      </svg>
      <figcaption>
        {name}, room for ware {lengthText(level.usableHeightMm, context.units)} high
        <ol className="small">
          {level.placements.map(({ key, pose }) => (
            <li key={key}>
              {designOf(key)?.name ?? key}
              {pose === 'upright' ? '' : `, ${pose}`}
            </li>
          ))}
        </ol>
      </figcaption>
    </figure>
  )
}

/** The stack from the side, to scale: shelves, and the height that ware may take on each. */
export function StackDrawing({ firing, kiln, context }: Props) {
  const { heightMm } = kiln.space.chamber
  const { lengthMm } = chamberSize(kiln.space.chamber.shape)
  const levels = firing.load?.levels ?? []
  return (
    <figure className="drawing">
      <svg viewBox={`-4 -4 ${lengthMm + 8} ${heightMm + 8}`} role="img" aria-label="The stack from the side">
        <rect className="load-chamber" x={0} y={0} width={lengthMm} height={heightMm} />
        {levels.map((level, i) => (
          <g key={`${level.zMm} ${level.shelves[0]?.xMm}`}>
            <rect
              className="load-shelf"
              x={lengthMm * 0.04}
              y={heightMm - level.zMm}
              width={lengthMm * 0.92}
              height={8}
            />
            <text className="load-mark" x={lengthMm / 2} y={heightMm - level.zMm - 8} fontSize={lengthMm / 18}>
              {i + 1}: {level.placements.length}
            </text>
          </g>
        ))}
      </svg>
      <figcaption>
        The stack from the side
        <ol className="small">
          {levels.map(({ zMm, shelves, placements }) => (
            <li key={`${zMm} ${shelves[0]?.xMm}`}>
              {lengthText(zMm, context.units)} over the floor: {placements.length} pieces
            </li>
          ))}
        </ol>
      </figcaption>
    </figure>
  )
}
