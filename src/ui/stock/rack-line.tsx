import { useState } from 'react'
import type { RackPiece } from '../../core/facts.ts'
import { say, showLength } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { MmField } from '../fields/length-field.tsx'
import { LengthText } from '../fields/length-text.tsx'
import { saysOf } from '../words.ts'

interface LineProps {
  readonly shop: Shop
  readonly marks: ReadonlyMap<string, string>
  readonly used: ReadonlyMap<string, string>
  readonly onCorrect: (rack: string, length: number) => void
  readonly onDiscard: (rack: string) => void
}

const wordOf = (piece: RackPiece, shop: Shop): string => {
  const says = saysOf(shop)
  return piece.from === 'drop' ? says.drop : `${says.stick}, ${piece.from}`
}

/** Pieces alike are one line with their number; each with its mark and keys is one tap away. */
export function RackGroup(props: LineProps & { readonly pieces: readonly RackPiece[] }) {
  const { pieces, shop } = props
  const first = pieces[0]!
  if (pieces.length === 1) return <RackLine {...props} piece={first} />
  return (
    <li>
      <details className="rack-alike">
        <summary>
          <span>
            <b>{pieces.length} ×</b> <LengthText of={showLength(first.length, shop.reading)} />{' '}
            <span className="dim">{wordOf(first, shop)}</span>
          </span>
        </summary>
        <ul>
          {pieces.map((piece) => (
            <RackLine key={piece.id} {...props} piece={piece} />
          ))}
        </ul>
      </details>
    </li>
  )
}

function RackLine(props: LineProps & { readonly piece: RackPiece }) {
  const { piece, shop } = props
  const [correcting, setCorrecting] = useState(false)
  const says = saysOf(shop)
  const mark = props.marks.get(piece.id) ?? ''
  const name = `${piece.from === 'drop' ? says.drop : says.stick} ${mark}, ${say(piece.length, shop.reading)}`
  const stick = props.used.get(piece.id)
  return (
    <li className="rack-line">
      <p>
        <span className="mark rack-mark">{mark}</span>{' '}
        <LengthText of={showLength(piece.length, shop.reading)} />{' '}
        <span className="dim">{wordOf(piece, shop)}</span>
        {stick && (
          <span className="dim">
            {' '}
            · <span className="mark">{stick}</span> of this job
          </span>
        )}
      </p>
      <div className="rack-keys">
        <button
          type="button"
          aria-expanded={correcting}
          aria-label={`Correct ${name}`}
          onClick={() => setCorrecting(!correcting)}
        >
          Correct
        </button>
        <button type="button" aria-label={`Discard ${name}`} onClick={() => props.onDiscard(piece.id)}>
          Discard
        </button>
      </div>
      {correcting && (
        <MmField
          label={`Real length of this ${piece.from === 'drop' ? says.drop : says.stick}`}
          value={piece.length}
          reading={shop.reading}
          possible={{ over: 0 }}
          onChange={(mm) => mm !== undefined && props.onCorrect(piece.id, mm)}
        />
      )}
    </li>
  )
}
