import { soldLength } from '../../core/buy/order-text.ts'
import { type Nest, type NestSection, type NestStick, piecesIn } from '../../core/nest.ts'
import { keptTogether } from '../../core/parts/one-stick.ts'
import type { BenchCut, Part } from '../../core/plan-shapes.ts'
import { say, showLength } from '../../core/reading/show.ts'
import { sectionName } from '../../core/section/name.ts'
import type { Shop } from '../../core/shop.ts'
import { type Stretch, stretchesOf } from '../drawing/stick-layout.ts'
import { useWidth } from '../drawing/width.ts'
import { LengthText } from '../fields/length-text.tsx'
import { leftOvers } from '../saw/left-over.tsx'
import { capital, count, saysOf } from '../words.ts'
import { isPart, type PartName } from './where-used.tsx'

/** Every stick of the nest, all to one scale, so that a short one looks short. */
export function Sticks(props: {
  readonly nest: Nest
  /** The job that is looked at: pieces of others in the same nest stand back. */
  readonly job: string
  readonly parts: readonly Part[]
  readonly chosen: PartName | undefined
  readonly onChoose: (part: PartName | undefined) => void
  readonly shop: Shop
  readonly cuts: readonly BenchCut[]
  readonly isKept: (stick: string) => boolean
  readonly isScrap: (stick: string) => boolean
  readonly onKeepDrop: (stick: string, length: number) => void
}) {
  const sticks = props.nest.sections.flatMap((section) => section.sticks)
  const says = saysOf(props.shop)
  const offered = leftOvers(
    sticks.filter(({ drop }) => drop >= props.shop.leastDrop),
    (stick) => isFinished(props.cuts, stick),
    (stick) => props.isKept(stick) || props.isScrap(stick),
  )
  const longest = Math.max(...props.nest.sections.flatMap((part) => part.sticks.map((stick) => stick.length)))
  return (
    <>
      {offered.length > 1 && (
        <p>
          <button
            type="button"
            onClick={() => {
              for (const { id, drop } of offered) props.onKeepDrop(id, drop)
            }}
          >
            Keep all {offered.length} {says.drops}
          </button>
        </p>
      )}
      {props.nest.sections.map((section) => (
        <section key={sectionName(section.section, props.shop.reading)} className="stock-section">
          <h3>{sectionName(section.section, props.shop.reading)}</h3>
          {section.sticks.map((stick) => (
            <StickLine key={stick.id} {...props} section={section} stick={stick} longest={longest} />
          ))}
        </section>
      ))}
    </>
  )
}

/** Every cut from it is made. */
function isFinished(cuts: readonly BenchCut[], stick: string): boolean {
  const own = cuts.filter((cut) => cut.loaded === stick)
  return own.length > 0 && own.every((cut) => cut.done !== undefined)
}

function StickLine(props: {
  readonly section: NestSection
  readonly stick: NestStick
  readonly job: string
  readonly parts: readonly Part[]
  readonly chosen: PartName | undefined
  readonly onChoose: (part: PartName | undefined) => void
  readonly shop: Shop
  readonly longest: number
  readonly cuts: readonly BenchCut[]
  readonly isKept: (stick: string) => boolean
  readonly isScrap: (stick: string) => boolean
  readonly onKeepDrop: (stick: string, length: number) => void
}) {
  const { stick, shop, cuts } = props
  const says = saysOf(shop)
  const own = cuts.filter((cut) => cut.loaded === stick.id)
  const done = own.filter((cut) => cut.done !== undefined).length
  const finished = isFinished(cuts, stick.id)
  const together = keptTogether(props.section, stick)
  const keeps = stick.drop >= shop.leastDrop
  const left = showLength(stick.drop, shop.reading)
  return (
    <div className="stick">
      <p className="stick-head">
        <span className="mark">{stick.id}</span> <LengthText of={showLength(stick.length, shop.reading)} />
        <span className="dim">
          {stick.halfOf !== undefined && ` half of ${soldLength(stick.halfOf, shop.reading)},`}
          {stick.from === 'rack' ? ' from the rack' : done > 0 ? ' bought' : ' to buy'} ·{' '}
          {count(stick.pieces.length, 'piece')}
          {together && ` · from one ${says.stick}: ${together}`}
        </span>
        {own.length > 0 && (
          <span className={finished ? 'state cut' : done > 0 ? 'state now' : 'state'}>
            {finished ? 'cut' : done > 0 ? `on now, ${done} of ${own.length} cut` : 'to go'}
          </span>
        )}
      </p>
      <StickPicture {...props} />
      <p className="stick-drop">
        {stick.drop > 0 ? (
          <>
            {keeps ? capital(says.drop) : 'Scrap'} <LengthText of={left} />
            {props.isKept(stick.id) && <span className="state cut">on the rack</span>}
            {props.isScrap(stick.id) && <span className="state cut">called scrap</span>}
          </>
        ) : (
          'Nothing left over'
        )}
        {finished && stick.drop > 0 && !props.isKept(stick.id) && !props.isScrap(stick.id) && (
          <button type="button" onClick={() => props.onKeepDrop(stick.id, stick.drop)}>
            Keep the {says.drop} of {stick.id}
          </button>
        )}
      </p>
    </div>
  )
}

/**
 * The stick as a bar, leading end at the left, lengths to one scale, angled ends and the miters of blanks true to the
 * section's width, kerfs left open between. A tap on a piece chooses its part; the keys above do the same.
 */
function StickPicture(props: {
  readonly stick: NestStick
  readonly section: NestSection
  readonly job: string
  readonly parts: readonly Part[]
  readonly chosen: PartName | undefined
  readonly onChoose: (part: PartName | undefined) => void
  readonly shop: Shop
  readonly longest: number
}) {
  const { stick, section, shop, longest, chosen } = props
  const [box, width] = useWidth<HTMLDivElement>(800)
  const says = saysOf(shop)
  const scale = (width - 4) / longest
  const high = 40
  const at = (mm: number) => (2 + mm * scale).toFixed(1)
  const names = stick.pieces.flatMap(piecesIn).map(({ piece }) => piece)
  const label = `${capital(says.stick)} ${stick.id}, ${say(stick.length, shop.reading)}: ${names.join(', ')}; left ${say(stick.drop, shop.reading)}`
  return (
    <div ref={box} className="stick-picture">
      <svg width={width} height={high + 4} viewBox={`0 0 ${width} ${high + 4}`} role="img" aria-label={label}>
        <rect x={at(0)} y="2" width={(stick.length * scale).toFixed(1)} height={high} className="whole" />
        {stretchesOf(stick, section, props.parts).map((stretch, place) => {
          const { upper, lower, finished, pieces } = stretch
          const middle = (upper[0] + upper[1] + lower[0] + lower[1]) / 4
          const room = (Math.min(upper[1], lower[1]) - Math.max(upper[0], lower[0])) * scale
          const outline = ({ upper: up, lower: low }: Pick<Stretch, 'upper' | 'lower'>) =>
            `${at(up[0])},2 ${at(up[1])},2 ${at(low[1])},${high + 2} ${at(low[0])},${high + 2}`
          const picked = pieces.some((piece) => isPart(chosen, piece))
          const other = pieces.length > 0 && pieces.every(({ job }) => job !== props.job)
          const first = pieces[0]
          return (
            // biome-ignore lint/a11y/noStaticElementInteractions: the keys above are the same for every hand and ear
            <g
              // biome-ignore lint/suspicious/noArrayIndexKey: stretches are named by their place in the stick
              key={place}
              className={`${stretch.kind}${picked ? ' chosen' : ''}${other ? ' other' : ''}`}
              onClick={() => first && props.onChoose(picked ? undefined : first)}
            >
              <polygon points={outline(stretch)} />
              {finished && <polygon className="miters" points={outline(finished)} />}
              {room >= Math.max(16, stretch.mark.length * 12) && (
                <text x={at(middle)} y={high / 2 + 8} textAnchor="middle">
                  {room >= stretch.name.length * 12 ? stretch.name : stretch.mark}
                </text>
              )}
            </g>
          )
        })}
      </svg>
    </div>
  )
}
