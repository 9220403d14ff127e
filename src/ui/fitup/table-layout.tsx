import { Fragment, useMemo, useState } from 'react'
import { blocksUnder, type Lying, loadsOf, lyingsOf, usualLying } from '../../core/fitup/blocks.ts'
import type { Loop } from '../../core/fitup/loops.ts'
import { layoutOf, needPlate, usualClear } from '../../core/fitup/table.ts'
import { blockLines, layoutLines, plateText } from '../../core/fitup/words.ts'
import { weightText } from '../../core/parts/weight.ts'
import { say, showLength, unitOf } from '../../core/reading/show.ts'
import { TablePlan } from '../drawing/table-plan.tsx'
import { Choice, Pick } from '../fields/choice.tsx'
import { LengthText } from '../fields/length-text.tsx'
import { TakeTable } from '../fields/take-table.tsx'
import { hrefOf } from '../shell/route.ts'
import { layoutOut } from './tables-out.ts'
import type { Bench } from './will-it-close.tsx'

/** The table of a repeat: lines, blocks, what lies under what, and what holds it down. */
export function TableLayout({ loops, bench }: { readonly loops: readonly Loop[]; readonly bench: Bench }) {
  const { plan, shop } = bench
  const { frame, parts } = plan
  const { reading, table } = shop
  const loads = useMemo(() => loadsOf(frame), [frame])
  const [id, setId] = useState('')
  const [asked, setAsked] = useState<Lying | null>(null)
  const load = loads.find((one) => one.id === id) ?? loads[0]
  const ways = useMemo(() => (load ? lyingsOf(frame, load) : new Map()), [frame, load])
  const lying = useMemo(
    () => (load ? (asked && ways.has(asked) ? asked : usualLying(frame, load)) : 'as it stands'),
    [asked, ways, frame, load],
  )
  if (!load) return null
  const up = ways.get(lying)!
  const clear = usualClear(shop)
  const layout = layoutOf(frame, load, up, loops, parts, clear)
  const lines = layoutLines(frame, layout, reading)
  const under = blockLines(frame, blocksUnder(frame, load, up), reading)
  const plate = plateText(frame, table ? needPlate(frame, load, up, table) : [])
  const weight = weightText(frame, new Set(load.members), shop.mass)
  const [wide, deep] = [layout.width + 2 * clear, layout.depth + 2 * clear]
  const flat = load.id !== 'all' && lines.length > 0
  return (
    <section className="fit-part" aria-labelledby="fit-table">
      <h2 id="fit-table">Lay out the table</h2>
      <div className="fit-head">
        {loads.length > 1 && (
          <Pick
            label="What is put together"
            value={load.id}
            options={loads.map((one) => ({ value: one.id, label: one.name }))}
            onChange={(value) => {
              setId(value)
              setAsked(null)
            }}
          />
        )}
        <Choice
          label="It lies"
          value={lying}
          options={[...ways.keys()].map((value) => ({ value, label: value }))}
          onChange={setAsked}
        />
      </div>
      {flat && (
        <>
          <p className="dim">
            Seen from above: x from the left edge, y from the front edge. Lines are the edges of the steel;
            blocks (small squares) stop it there, clear of the joints.
          </p>
          <div className="fit-table">
            <TablePlan
              layout={layout}
              clear={clear}
              wide={800}
              high={480}
              size={22}
              label={`The table from above with the ${load.name.toLowerCase()}, its lines and blocks`}
            />
          </div>
          <table className="fit-marks">
            <thead>
              <tr>
                <th scope="col">Piece</th>
                <th scope="col">Line, x, y ({unitOf(reading)})</th>
                <th scope="col">Blocks, x, y</th>
              </tr>
            </thead>
            <tbody>
              {lines.map(({ name, from, to, blocks }) => (
                <tr key={`${name} ${from} ${to}`}>
                  <th scope="row">{name}</th>
                  <td>
                    <span>{from}</span> to <span>{to}</span>
                  </td>
                  <td>
                    {blocks.map((at, k) => (
                      <Fragment key={at}>
                        {k > 0 && ' and '}
                        <span>{at}</span>
                      </Fragment>
                    ))}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
          <TakeTable
            name={plan.name}
            what="lines and blocks"
            table={() => layoutOut(frame, layout, reading)}
          />
          {layout.diagonals.length > 0 && (
            <p>
              Check the lines, from corner to corner.{' '}
              {layout.diagonals.map(({ id: key, from, to, expected }, at) => (
                <span key={key}>
                  {at > 0 ? '; ' : ''}
                  {from} to {to}: <LengthText of={showLength(expected, reading)} />
                </span>
              ))}
              .
            </p>
          )}
        </>
      )}
      <h3>Under it</h3>
      {under.length === 0 ? (
        <p>Nothing: every piece lies on the table, or on one that does.</p>
      ) : (
        <ul className="stands">
          {under.map(({ title, text }) => (
            <li key={`${title} ${text}`}>
              <b>{title}</b>
              <span>{text}</span>
            </li>
          ))}
        </ul>
      )}
      {plate && <p className="state now">{plate}</p>}
      {table && flat && (wide > table.length || deep > table.width) && (
        <p className="state now">
          It takes {say(wide, reading)} by {say(deep, reading)} with the room around it; the table is{' '}
          {say(table.length, reading)} by {say(table.width, reading)}.
        </p>
      )}
      <p>
        {flat
          ? `Push each piece against its blocks and clamp it, or lay a weight on its middle: thin tube lifts as it is tacked. ${weight}`
          : weight}
      </p>
      <p className="dim">
        {table
          ? `Laid ${say(clear, reading)} from both edges${table.slot ? `; slots ${say(table.slot, reading)} wide` : ''}.`
          : `Laid ${say(clear, reading)} from both edges.`}{' '}
        <a href={hrefOf({ station: 'shop' })}>
          {table ? 'The table, in the Shop' : 'Give the size of your table in the Shop'}
        </a>
      </p>
    </section>
  )
}
