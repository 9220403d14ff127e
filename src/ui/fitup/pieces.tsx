import type { Loop } from '../../core/fitup/loops.ts'
import { angleName, lengthName } from '../../core/fitup/real.ts'
import type { Part } from '../../core/plan-shapes.ts'
import { parseAngle } from '../../core/reading/parse.ts'
import { AngleField, MmField } from '../fields/length-field.tsx'
import { LengthText } from '../fields/length-text.tsx'
import type { Bench } from './will-it-close.tsx'

/** Length and end angles of each piece as measured; what is left out counts as printed. */
export function Pieces(props: {
  readonly loop: Loop
  readonly marks: readonly string[]
  readonly bench: Bench
}) {
  const { loop, marks, bench } = props
  const { plan, measured } = bench
  const partOf = new Map(plan.parts.flatMap((part) => part.members.map((id) => [id, part] as const)))
  const given = (member: string) =>
    [lengthName(member), angleName(member, 'A'), angleName(member, 'B')].filter(
      (of) => measured(of) !== undefined,
    ).length
  const all = loop.pieces.reduce((sum, { member }) => sum + (given(member) > 0 ? 1 : 0), 0)
  return (
    <details className="fit-fold">
      <summary>
        <span>Measured pieces</span>
        <span className="dim">
          {all} of {loop.pieces.length}; the others count as printed
        </span>
      </summary>
      {loop.pieces.map((piece, at) => {
        const part = partOf.get(piece.member)
        return part ? (
          <Piece
            key={piece.member}
            member={piece.member}
            name={`${marks[at]} · ${piece.name}`}
            between={`joints ${at + 1} and ${((at + 1) % loop.pieces.length) + 1}`}
            part={part}
            ends={[piece.entry.end, piece.exit.end].filter((end) => end !== 'side').sort()}
            bench={bench}
          />
        ) : null
      })}
    </details>
  )
}

function Piece(props: {
  readonly member: string
  readonly name: string
  readonly between: string
  readonly part: Part
  readonly ends: readonly ('A' | 'B')[]
  readonly bench: Bench
}) {
  const { member, name, between, part, ends, bench } = props
  const { shop, measured, onGauge } = bench
  const { printed } = part
  return (
    <fieldset className="fit-piece">
      <legend>
        <b>{name}</b> <span className="dim">between {between}</span>
      </legend>
      <MmField
        label={printed.primary === 'edge' ? 'Edge, measured' : 'Long point, measured'}
        optional
        value={measured(lengthName(member))}
        reading={shop.reading}
        hint={
          <>
            Printed <LengthText of={printed.length} />
          </>
        }
        possible={{ over: 0 }}
        onChange={(mm) => onGauge(lengthName(member), mm)}
      />
      {ends.map((end) => (
        <AngleField
          key={end}
          label={`End ${end}, from square`}
          optional
          value={measured(angleName(member, end))}
          hint={`Printed ${printed.angles[end === 'A' ? 0 : 1].text}`}
          onChange={(text) => {
            const angle = parseAngle(text)
            if (text.trim() === '') onGauge(angleName(member, end), undefined)
            else if (angle.ok) onGauge(angleName(member, end), angle.value)
          }}
        />
      ))}
    </fieldset>
  )
}
