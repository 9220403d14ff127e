import { useState } from 'react'
import type { Bodies, RackPiece } from '../../core/facts.ts'
import { parseLength } from '../../core/reading/parse.ts'
import { say, showLength } from '../../core/reading/show.ts'
import { sectionName } from '../../core/section/name.ts'
import { type Section, sectionKey } from '../../core/section/section.ts'
import type { Shop } from '../../core/shop.ts'
import { Choice, Pick } from '../fields/choice.tsx'
import { Count } from '../fields/count.tsx'
import { LengthField } from '../fields/length-field.tsx'
import { LengthText } from '../fields/length-text.tsx'
import { capital, saysOf, unitsOf } from '../words.ts'

interface RackProps {
  readonly rack: readonly RackPiece[]
  readonly shop: Shop
  /** Sections that can be added: of the job and of the shop. */
  readonly sections: readonly Section[]
  /** Ids of rack pieces that the nest cuts from, to the stick's name in it. */
  readonly used: ReadonlyMap<string, string>
  readonly onCorrect: (rack: string, length: number) => void
  readonly onDiscard: (rack: string) => void
  readonly onFound: (body: Bodies['found']) => void
  readonly onBought: (section: Section, length: number, count: number) => void
}

/** What lies on the rack: sticks and drops, added as found or bought, corrected, discarded. */
export function Rack(props: RackProps) {
  const { rack, shop } = props
  const says = saysOf(shop)
  const keys = [...new Set(rack.map((piece) => sectionKey(piece.section)))]
  return (
    <section className="rack" aria-labelledby="rack-head">
      <h2 id="rack-head">On the rack</h2>
      {rack.length === 0 && (
        <p className="dim">
          Nothing yet. {capital(says.drops)} that are kept at the saw come here by themselves; put in what
          else lies there, and it is cut before anything is bought.
        </p>
      )}
      {keys.map((key) => {
        const own = rack.filter((piece) => sectionKey(piece.section) === key)
        return (
          <div key={key}>
            <h3>{sectionName(own[0]!.section, shop.reading)}</h3>
            <ul className="rack-list">
              {own.map((piece) => (
                <RackLine key={piece.id} {...props} piece={piece} />
              ))}
            </ul>
          </div>
        )
      })}
      <AddToRack {...props} />
    </section>
  )
}

function RackLine(props: RackProps & { piece: RackPiece }) {
  const { piece, shop, used } = props
  const [correcting, setCorrecting] = useState(false)
  const says = saysOf(shop)
  const word = piece.from === 'drop' ? says.drop : `${says.stick}, ${piece.from}`
  const name = `${word} ${say(piece.length, shop.reading)}`
  const stick = used.get(piece.id)
  return (
    <li className="rack-line">
      <p>
        <LengthText of={showLength(piece.length, shop.reading)} /> <span className="dim">{word}</span>
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
        <LengthField
          label={`Real length of this ${piece.from === 'drop' ? says.drop : says.stick}`}
          value={piece.length}
          reading={shop.reading}
          onChange={(typed) => {
            const read = parseLength(typed, unitsOf(shop.reading))
            if (read.ok) props.onCorrect(piece.id, read.value.mm)
          }}
        />
      )}
    </li>
  )
}

const endsHint = {
  cut: 'Sawn square: nothing is cleaned up.',
  mill: 'As it came: the end is cleaned up first.',
} as const

function AddToRack({ shop, sections, onFound, onBought }: RackProps) {
  const says = saysOf(shop)
  const [key, setKey] = useState(sections[0] ? sectionKey(sections[0]) : '')
  const [typed, setTyped] = useState('')
  const [ends, setEnds] = useState<'cut' | 'mill'>('cut')
  const [many, setMany] = useState(1)
  const section = sections.find((one) => sectionKey(one) === key) ?? sections[0]
  if (!section) return <p className="dim">A section carried in Shop or used in the job can be added here.</p>
  const read = parseLength(typed, unitsOf(shop.reading))
  const length = read.ok && read.value.mm > 0 ? read.value.mm : undefined
  const add = (put: (mm: number) => void) => {
    if (length === undefined) return
    put(length)
    setTyped('')
    setMany(1)
  }
  const found = (mm: number) => {
    for (let n = 0; n < many; n++) onFound({ section, length: mm, ends: [ends, ends] })
  }
  const wrong = read.ok && length === undefined ? 'A length above 0 is possible.' : undefined
  return (
    <details className="rack-add">
      <summary>Put something on the rack</summary>
      <div className="rack-fields">
        <Pick
          label="Section"
          value={sectionKey(section)}
          options={sections.map((one) => ({ value: sectionKey(one), label: sectionName(one, shop.reading) }))}
          onChange={setKey}
        />
        <LengthField
          label="Length"
          value={typed}
          reading={shop.reading}
          onChange={setTyped}
          problem={wrong}
        />
        <Count label="How many" value={many} most={200} onChange={setMany} />
        <Choice
          label="Ends"
          value={ends}
          options={[
            { value: 'cut', label: 'Cut' },
            { value: 'mill', label: 'From the mill' },
          ]}
          hint={endsHint[ends]}
          onChange={setEnds}
        />
        <div className="rack-keys">
          <button type="button" disabled={length === undefined} onClick={() => add(found)}>
            Found: put on the rack
          </button>
          <button
            type="button"
            disabled={length === undefined}
            onClick={() => add((mm) => onBought(section, mm, many))}
          >
            Bought: put on the rack
          </button>
        </div>
        <p className="dim">{capital(says.sticks)} that are bought have mill ends.</p>
      </div>
    </details>
  )
}
