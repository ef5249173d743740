import type { LoadLevel } from '#core/loading/types.ts'
import type { PlannedFiring } from '#core/planning/plan.ts'
import type { KilnRecord } from '#contract/kiln.ts'
import { lengthText } from '#words/amounts.ts'
import type { Context } from '#words/context.ts'
import type { Studio } from '../data/queries.ts'
import { chamberPath, chamberSize, pieceOutlines, shelfOutlines } from './drawing.ts'
import { postsThrough, sideOf } from './side.ts'
import { pieceName, sizesIn } from './ware.ts'

type Props = {
  readonly firing: PlannedFiring
  readonly kiln: KilnRecord
  readonly studio: Studio
  readonly context: Context
}
type LevelProps = Props & { readonly level: LoadLevel; readonly name: string }

/** One level from above, to scale; numbers lead to the list. */
export function LevelDrawing({ level, name, firing, kiln, studio, context }: LevelProps) {
  const { chamber, furniture } = kiln.space
  const { lengthMm, widthMm } = chamberSize(chamber.shape)
  const sizeOf = sizesIn(firing, studio)
  const posts = firing.load ? postsThrough(firing.load, level) : []
  return (
    <figure className="drawing">
      <svg
        viewBox={`${-lengthMm / 2 - 4} ${-widthMm / 2 - 4} ${lengthMm + 8} ${widthMm + 8}`}
        role="img"
        aria-label={`${name} from above`}
      >
        <path className="load-chamber" d={chamberPath(chamber.shape)} />
        {shelfOutlines(level, furniture.shelves).map(({ key, path }) => (
          <path key={key} className="load-shelf" d={path} />
        ))}
        {posts.map(({ xMm, yMm, postIds }) => (
          <circle
            key={`${xMm} ${yMm}`}
            className="load-post"
            cx={xMm}
            cy={-yMm}
            r={(furniture.posts.find(({ id }) => id === postIds[0])?.sizeMm ?? 0) / 2}
          />
        ))}
        {pieceOutlines(level, (placement) => sizeOf(placement)?.footprint).map(({ key, path, radiusMm }) => (
          <g key={key}>
            <path className="load-piece load-piece-edge" d={path} strokeWidth={radiusMm * 2 + 2} />
            <path className="load-piece" d={path} strokeWidth={Math.max(0.5, radiusMm * 2 - 2)} />
          </g>
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
              {pieceName(firing, studio, key)}
              {pose === 'upright' ? '' : `, ${pose}`}
            </li>
          ))}
        </ol>
      </figcaption>
    </figure>
  )
}

/** The stack from the side, to scale: posts, shelves and what stands on them. */
export function StackDrawing({ firing, kiln, studio, context }: Props) {
  const { heightMm, shape } = kiln.space.chamber
  const { lengthMm } = chamberSize(shape)
  const { load } = firing
  if (!load) return null
  return (
    <figure className="drawing">
      <svg
        viewBox={`${-lengthMm / 2 - 4} -4 ${lengthMm + lengthMm / 8} ${heightMm + 8}`}
        role="img"
        aria-label="The stack from the side"
      >
        <rect className="load-chamber" x={-lengthMm / 2} y={0} width={lengthMm} height={heightMm} />
        {sideOf(load, kiln.space, sizesIn(firing, studio)).map(({ key, kind, fromMm, toMm, lowMm, highMm }) => (
          <rect
            key={key}
            className={`load-${kind} load-side`}
            x={fromMm}
            y={heightMm - highMm}
            width={toMm - fromMm}
            height={highMm - lowMm}
          />
        ))}
        {load.levels.map(({ zMm, shelves }, i) => (
          <text
            key={`${zMm} ${shelves[0]?.xMm}`}
            className="load-mark"
            x={lengthMm / 2 + lengthMm / 18}
            y={heightMm - zMm}
            fontSize={lengthMm / 18}
          >
            {i + 1}
          </text>
        ))}
      </svg>
      <figcaption>
        The stack from the side
        <ol className="small">
          {load.levels.map(({ zMm, shelves, placements }) => (
            <li key={`${zMm} ${shelves[0]?.xMm}`}>
              {lengthText(zMm, context.units)} over the floor: {placements.length} pieces
            </li>
          ))}
        </ol>
      </figcaption>
    </figure>
  )
}
