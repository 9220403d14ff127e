import type { Part } from '../../core/plan-shapes.ts'
import { sectionName } from '../../core/section/name.ts'
import type { Reading } from '../../core/shop.ts'
import { EndsPicture } from '../drawing/ends.tsx'
import { AngleText, LengthText } from '../fields/length-text.tsx'
import { shapeWords } from '../words.ts'
import { useNarrow } from './narrow.ts'

interface Props {
  readonly parts: readonly Part[]
  readonly quantity: number
  readonly reading: Reading
  readonly chosen: string | null
  readonly onChoose: (mark: string) => void
  /** Shows the drawing of this part alone. */
  readonly onDraw: (mark: string) => void
}

/** Every part once, with all that must be known of it. Choosing a row shows the part on the drawing. */
export function PartsTable(props: Props) {
  const narrow = useNarrow(880)
  return narrow ? <Cards {...props} /> : <Table {...props} />
}

function MarkKey({ part, chosen, onChoose }: Pick<Props, 'chosen' | 'onChoose'> & { part: Part }) {
  return (
    <button
      type="button"
      className="mark mark-key"
      aria-pressed={part.mark === chosen}
      aria-label={`${part.mark}, show it on the drawing`}
      onClick={() => onChoose(part.mark)}
    >
      {part.mark}
    </button>
  )
}

function DrawingKey({ part, onDraw }: Pick<Props, 'onDraw'> & { part: Part }) {
  return (
    <button
      type="button"
      className="drawing-key"
      aria-label={`Drawing of ${part.mark}`}
      onClick={() => onDraw(part.mark)}
    >
      Drawing
    </button>
  )
}

/** The length that is set and cut, with how it lies, and its remainder where it is worth saying. */
function CutLength({ part }: { part: Part }) {
  const { length, primary } = part.printed
  return (
    <>
      <strong className="cut-length">
        <LengthText of={length} lies />
      </strong>
      {length.remainder && <small className="dim nowrap"> ({length.remainder})</small>}
      {primary === 'edge' && <small className="dim"> along the edge</small>}
    </>
  )
}

function Angles({ part }: { part: Part }) {
  const [a, b] = part.printed.angles
  if (a.text === b.text) return <AngleText of={a} rise />
  return (
    <>
      <AngleText of={a} rise />, <AngleText of={b} rise />
    </>
  )
}

function Ends({ part }: { part: Part }) {
  return (
    <span className="ends">
      <EndsPicture slopes={part.slopes} />
      <span>
        {shapeWords[part.shape]}
        {part.saddles ? `, then a saddle ${part.saddles}` : ''}
      </span>
    </span>
  )
}

const pieces = (part: Part, quantity: number) =>
  quantity > 1 ? `${part.count} × ${quantity} = ${part.count * quantity}` : String(part.count)

/** Long point of a part whose cut length is an edge: said beside it. */
const longer = (part: Part) => part.printed.primary === 'edge'

function Table({ parts, quantity, reading, chosen, onChoose, onDraw }: Props) {
  return (
    <div className="scroll-x">
      <table className="parts">
        <thead>
          <tr>
            <th scope="col">mark</th>
            <th scope="col">part</th>
            <th scope="col">pieces</th>
            <th scope="col">long point</th>
            <th scope="col">short point</th>
            <th scope="col">from square</th>
            <th scope="col">ends</th>
          </tr>
        </thead>
        <tbody>
          {parts.map((part) => (
            <tr key={part.mark} className={part.mark === chosen ? 'chosen' : undefined}>
              <th scope="row">
                <MarkKey part={part} chosen={chosen} onChoose={onChoose} />
              </th>
              <td className="part-name">
                {part.name}
                <small className="dim">
                  {sectionName(part.section, reading)}, {part.printed.mass}
                </small>
                <DrawingKey part={part} onDraw={onDraw} />
              </td>
              <td className="number">
                {part.count * quantity}{' '}
                {quantity > 1 && (
                  <small className="dim nowrap">
                    {part.count} × {quantity}
                  </small>
                )}
              </td>
              <td className="number">
                <CutLength part={part} />
                {longer(part) && (
                  <small className="dim">
                    {' '}
                    long point <LengthText of={part.printed.longPoint} lies />
                  </small>
                )}
              </td>
              <td className="number">
                <LengthText of={part.printed.shortPoint} lies />
              </td>
              <td className="number">
                <Angles part={part} />
              </td>
              <td>
                <Ends part={part} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

function Cards({ parts, quantity, reading, chosen, onChoose, onDraw }: Props) {
  return (
    <ul className="part-cards">
      {parts.map((part) => (
        <li key={part.mark} className={part.mark === chosen ? 'part-card chosen' : 'part-card'}>
          <MarkKey part={part} chosen={chosen} onChoose={onChoose} />
          <div className="part-words">
            <p className="first-line">
              <span>
                {part.name} <span className="dim">× {pieces(part, quantity)}</span>
              </span>
              <span>
                <CutLength part={part} />
              </span>
            </p>
            <p className="dim">
              {sectionName(part.section, reading)}, {part.printed.mass}
            </p>
            <dl>
              {longer(part) && (
                <>
                  <dt>long point</dt>
                  <dd>
                    <LengthText of={part.printed.longPoint} lies />
                  </dd>
                </>
              )}
              <dt>short point</dt>
              <dd>
                <LengthText of={part.printed.shortPoint} lies />
              </dd>
              <dt>from square</dt>
              <dd>
                <Angles part={part} />
              </dd>
              <dt>ends</dt>
              <dd>
                <Ends part={part} />
              </dd>
            </dl>
            <DrawingKey part={part} onDraw={onDraw} />
          </div>
        </li>
      ))}
    </ul>
  )
}
