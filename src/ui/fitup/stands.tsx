import { useMemo } from 'react'
import { centerName, straight, strayOf } from '../../core/fitup/centering.ts'
import type { Loop } from '../../core/fitup/loops.ts'
import { type CenterLine, centerLines, sayOutermost, standLines } from '../../core/fitup/words.ts'
import { say, showLength } from '../../core/reading/show.ts'
import { MmField } from '../fields/length-field.tsx'
import { LengthText } from '../fields/length-text.tsx'
import { TakeTable } from '../fields/take-table.tsx'
import { fine, unseen } from './closing-words.ts'
import { standsOut } from './tables-out.ts'
import type { Bench } from './will-it-close.tsx'

/** Centering: distances from edge to edge for every member that stands on another, both ways. */
export function Stands({ loops, bench }: { readonly loops: readonly Loop[]; readonly bench: Bench }) {
  const { plan, shop } = bench
  const stands = useMemo(() => standLines(plan, shop.reading), [plan, shop.reading])
  const centers = useMemo(() => centerLines(plan, loops), [plan, loops])
  if (stands.length === 0 && centers.length === 0)
    return <p>No piece of this frame stands or lies on another.</p>
  return (
    <section className="fit-part" aria-labelledby="fit-center">
      <h2 id="fit-center">Where one stands on another</h2>
      {centers.map((line) => (
        <Centered
          key={`${line.center.loop} ${line.center.member} ${line.center.way}`}
          line={line}
          bench={bench}
        />
      ))}
      {stands.length > 0 && (
        <>
          <h3>Edge to edge</h3>
          <p className="dim">
            From both sides: the two of a pair tell on each other. Along: from the points of the piece
            underneath. Across: from the edges of its face.
          </p>
        </>
      )}
      <ul className="stands">
        {stands.map(({ title, along, across }) => (
          <li key={`${title} ${along} ${across}`}>
            <b>{title}</b>
            <span>along: {along}</span>
            <span>across: {across}</span>
          </li>
        ))}
      </ul>
      <TakeTable
        name={plan.name}
        what="distances edge to edge"
        table={() => standsOut(plan, loops, shop.reading)}
      />
    </section>
  )
}

/** One post in its ring or on its plate, one way: from flat or edge to face on both sides, at both edges of the face. */
function Centered(props: { readonly line: CenterLine; readonly bench: Bench }) {
  const { line, bench } = props
  const { name, within, center } = line
  const { shop, measured, onGauge } = bench
  const { reading } = shop
  const sides = [0, 1] as const
  // A corner is one point, and a round edge runs away: only from what is straight can both edges of the face be measured.
  const edges = sides.map((side) => (straight(center.from[side]) ? ([0, 1] as const) : ([0] as const)))
  const got = sides.map((side) => edges[side]!.map((edge) => measured(centerName(center, side, edge))))
  const count = got.flat().length
  const any = got.flat().filter((mm) => mm !== undefined).length
  const both = got.map(([one, two]) => {
    const first = one ?? two
    return first === undefined ? undefined : ([one ?? first, two ?? first] as const)
  })
  const stray = both[0] && both[1] ? strayOf(center, both[0], both[1]) : undefined
  const full = count > 2 && any === count
  const [from, to] = center.from.map(sayOutermost) as [string, string]
  const moves = stray !== undefined && Math.abs(stray.move) >= unseen(reading)
  const turns = stray !== undefined && full && Math.abs(stray.turn) >= unseen(reading)
  return (
    <details className="fit-fold">
      <summary>
        <span>
          {name}: {say(center.distance[0], reading)} from {from}, {say(center.distance[1], reading)} from {to}
        </span>
        <span className="dim">{any === 0 ? 'not measured' : `${any} of ${count} measured`}</span>
      </summary>
      <div className="fit-fields">
        <p className="dim">
          {within === 'frame'
            ? `From the outside of the frame to the face of the ${name.toLowerCase()}`
            : `From the edge of the ${within}, seen from above, to the face`}
          {count > 2
            ? ', at both edges of that face: the two must read the same, then it stands parallel'
            : ''}
          .
        </p>
        {sides.flatMap((side) =>
          edges[side]!.map((edge) => (
            <MmField
              key={`${side} ${edge}`}
              label={`From ${side === 0 ? from : to}${edges[side]!.length === 1 ? '' : edge === 0 ? ', one edge' : ', other edge'}`}
              optional
              value={got[side]![edge]}
              reading={reading}
              hint={
                <>
                  Must be <LengthText of={showLength(center.distance[side], reading)} />
                </>
              }
              onChange={(mm) => onGauge(centerName(center, side, edge), mm)}
            />
          )),
        )}
        {stray && (
          <p role="status" className={moves || turns ? 'fit-says state now' : 'fit-says state cut'}>
            {moves && `Move it ${fine(Math.abs(stray.move), reading)} toward ${stray.move > 0 ? to : from}. `}
            {turns &&
              `It is turned: one edge of the face is ${fine(Math.abs(stray.turn), reading)} ${stray.turn > 0 ? 'further' : 'nearer'} than the other at ${from}.`}
            {!moves &&
              !turns &&
              (full ? 'It stands in the middle, and parallel.' : 'It stands in the middle.')}
          </p>
        )}
      </div>
    </details>
  )
}
