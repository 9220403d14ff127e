import { useState } from 'react'
import type { Bodies } from '../../core/facts.ts'
import { sectionName } from '../../core/section/name.ts'
import { type Section, sectionKey } from '../../core/section/section.ts'
import type { Shop } from '../../core/shop.ts'
import { Choice, Pick } from '../fields/choice.tsx'
import { Count } from '../fields/count.tsx'
import { MmField } from '../fields/length-field.tsx'
import { capital, saysOf } from '../words.ts'

const endsHint = {
  cut: 'Sawn square: nothing is cleaned up.',
  mill: 'As it came: the end is cleaned up first.',
} as const

interface AddProps {
  readonly shop: Shop
  /** Sections that can be added: of the job and of the shop. */
  readonly sections: readonly Section[]
  readonly onFound: (body: Bodies['found']) => void
  readonly onBought: (section: Section, length: number, count: number) => void
}

/** Sticks and drops that lie there and were not kept at the saw: several alike at once. */
export function AddToRack({ shop, sections, onFound, onBought }: AddProps) {
  const says = saysOf(shop)
  const [key, setKey] = useState(sections[0] ? sectionKey(sections[0]) : '')
  const [length, setLength] = useState<number | undefined>()
  const [ends, setEnds] = useState<'cut' | 'mill'>('cut')
  const [many, setMany] = useState(1)
  const section = sections.find((one) => sectionKey(one) === key) ?? sections[0]
  if (!section) return <p className="dim">A section carried in Shop or used in the job can be added here.</p>
  const add = (put: (mm: number) => void) => {
    if (length === undefined) return
    put(length)
    setLength(undefined)
    setMany(1)
  }
  const found = (mm: number) => {
    for (let n = 0; n < many; n++) onFound({ section, length: mm, ends: [ends, ends] })
  }
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
        <MmField
          label="Length"
          value={length}
          reading={shop.reading}
          possible={{ over: 0 }}
          onChange={setLength}
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
