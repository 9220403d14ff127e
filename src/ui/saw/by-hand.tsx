import './by-hand.css'
import type { HandCut, Part } from '../../core/plan-shapes.ts'
import { layOutOf } from '../../core/saw/lay-out.ts'
import type { Shop } from '../../core/shop.ts'
import { LengthText } from '../fields/length-text.tsx'
import { TakeTable } from '../fields/take-table.tsx'
import { capital, saysOf } from '../words.ts'
import { LayOutPicture } from './lay-out-picture.tsx'
import { byHandOut } from './tables-out.ts'

/** Pieces that no saw of the shop finishes: why, the ways out, how each is marked out, and a key that checks it off. */
export function ByHand(props: {
  /** Name of the job. */
  readonly job: string
  readonly pieces: readonly HandCut[]
  readonly parts: readonly Part[]
  readonly shop: Shop
  /** All that the saws do is done: now it is their turn. */
  readonly now: boolean
  readonly onMade: (piece: string) => void
}) {
  const { job, pieces, parts, shop, now } = props
  const there = pieces.filter(({ lost }) => lost === undefined)
  if (there.length === 0) return null
  const open = there.filter(({ done }) => done === undefined)
  const reasons = [...new Set(there.map(({ left }) => left.why))]
  return (
    <section className="by-hand" aria-labelledby="by-hand-head">
      <h2 id="by-hand-head">
        {open.length === 0
          ? 'By hand: all made'
          : now
            ? 'Now by hand'
            : 'Not finished by a saw here: by hand at the end'}
      </h2>
      {reasons.map((why) => {
        const same = there.filter((one) => one.left.why === why)
        return (
          <div key={why} className="by-hand-why">
            <p>
              <b>{same.map(({ product }) => product.id).join(', ')}</b>: {withoutMark(why, same)}
            </p>
            {open.length > 0 && same[0]!.left.ways.length > 0 && (
              <details>
                <summary>Ways to change that</summary>
                <ul>
                  {same[0]!.left.ways.map((way) => (
                    <li key={way}>{capital(way)}</li>
                  ))}
                </ul>
              </details>
            )}
          </div>
        )
      })}
      {[...new Set(open.map(({ product }) => product.mark))].map((mark) => {
        const part = parts.find((one) => one.mark === mark)
        const own = open.filter(({ product }) => product.mark === mark)
        return (
          <div key={mark} className="by-hand-part">
            {now && part && <MarkOut part={part} shop={shop} />}
            {now && (
              <div className="left-over-keys">
                {own.map((one) => (
                  <button key={one.product.id} type="button" onClick={() => props.onMade(one.product.id)}>
                    {one.product.id} is made, of {steelOf(one, saysOf(shop).stick)}
                  </button>
                ))}
              </div>
            )}
          </div>
        )
      })}
      {now && <TakeTable name={job} what="pieces by hand" table={() => byHandOut(there, parts, shop)} />}
    </section>
  )
}

/** The reason begins with the mark; the pieces stand before it already. */
const withoutMark = (why: string, [first]: readonly HandCut[]): string =>
  why.startsWith(`${first?.left.mark}: `) ? capital(why.slice((first?.left.mark.length ?? 0) + 2)) : why

const steelOf = ({ product, stick }: HandCut, word: string): string =>
  product.from === stick || product.from.startsWith(`${stick}.`)
    ? `the rest of ${word} ${stick}`
    : `blank ${product.id}`

/** Where the cut lines cross the edges, from one square end of the steel. */
function MarkOut({ part, shop }: { part: Part; shop: Shop }) {
  const out = layOutOf(part, shop.reading)
  const [first] = out.lines
  if (out.square)
    return (
      <p>
        <b>{part.mark}</b>: measure <LengthText of={first!.length} /> from a square end, square a line all
        round and cut on its waste side.
      </p>
    )
  return (
    <div className="mark-out">
      <p>
        <b>{part.mark}</b>:{' '}
        {out.round
          ? 'Scribe four lines along the tube, a quarter turn apart, and number them round it. On each, '
          : 'Number the four edges round the tube. On each, '}
        measure in from the square end, then along it. Join the marks over the faces and cut on the waste
        side, with grinder, torch or band saw.
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">{out.round ? 'Line' : 'Edge'}</th>
            <th scope="col">In from the end</th>
            <th scope="col">Then along it</th>
          </tr>
        </thead>
        <tbody>
          {out.lines.map(({ from, length }, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: edges have no other name than their number
            <tr key={at}>
              <th scope="row">{at + 1}</th>
              <td>
                <LengthText of={from} />
              </td>
              <td>
                <LengthText of={length} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <LayOutPicture part={part} out={out} />
    </div>
  )
}
