import { useState } from 'react'
import type { Given, SectionGiven } from '../../core/job.ts'
import { parseLength } from '../../core/reading/parse.ts'
import { good, type Result } from '../../core/result.ts'
import { resolveSection } from '../../core/section/given.ts'
import { sectionName } from '../../core/section/name.ts'
import { type Section, type SectionKind, sectionKey } from '../../core/section/section.ts'
import type { CarriedSection, Reading } from '../../core/shop.ts'
import { unitsOf } from '../words.ts'
import { Pick } from './choice.tsx'
import { givenText, LengthField } from './length-field.tsx'
import { TypedField } from './typed-field.tsx'

export const sectionKinds: readonly { readonly value: SectionKind; readonly label: string }[] = [
  { value: 'square-tube', label: 'square tube' },
  { value: 'rect-tube', label: 'rectangular tube' },
  { value: 'round-tube', label: 'round tube' },
  { value: 'flat-bar', label: 'flat bar' },
]

const hasHeight = (kind: SectionKind) => kind === 'rect-tube' || kind === 'flat-bar' || kind === 'angle'
const hasWall = (kind: SectionKind) => kind.endsWith('tube') || kind === 'angle'

/** A section as a job keeps it: plain millimeters. */
export const givenOf = (section: Section): SectionGiven => ({
  kind: section.kind,
  width: section.width,
  height: section.height,
  wall: section.wall,
  cornerRadius: section.cornerRadius,
  ...(section.grade ? { grade: section.grade } : {}),
})

/** The same section of another kind: what the kind does not have is left out, what it needs is filled in. */
export function ofKind(given: SectionGiven, kind: SectionKind): SectionGiven {
  const { width, height = width, wall } = given
  return {
    kind,
    width,
    ...(hasHeight(kind) ? { height } : {}),
    ...(hasWall(kind) ? { wall: wall === undefined || wall === 0 ? '1/8 in' : wall } : {}),
    ...(given.grade ? { grade: given.grade } : {}),
  }
}

/** A wall: a length, or a gauge, which the section's own table turns into a length. */
export function readWall(text: string, given: SectionGiven, units: 'in' | 'mm'): Result<string> {
  const gauge = /^\s*(\d+)\s*(ga|gauge)\.?\s*$/i.test(text)
  if (!gauge) {
    const length = parseLength(text, units)
    return length.ok ? good(length.value.understood) : length
  }
  const section = resolveSection({ ...given, wall: text }, units)
  if (!section.ok) return section
  return good(
    `${text.trim()} = ${+(section.value.wall / 25.4).toFixed(4)} in = ${+section.value.wall.toFixed(3)} mm`,
  )
}

/** What a person types of a section that the shop does not carry. */
export function OwnSection(props: {
  readonly value: SectionGiven
  readonly reading: Reading
  readonly units: 'in' | 'mm'
  readonly onChange: (section: SectionGiven) => void
}) {
  const { value, reading, units, onChange } = props
  // A corner radius belongs to the section that it was looked up for; another size follows the kind's rule again.
  const { cornerRadius: _, ...free } = value
  const set = (change: { width?: Given; height?: Given; wall?: Given }) => onChange({ ...free, ...change })
  return (
    <div className="own-section">
      <Pick
        label="Kind"
        options={sectionKinds}
        value={value.kind}
        onChange={(kind) => onChange(ofKind(free, kind))}
      />
      <LengthField
        label={value.kind === 'round-tube' ? 'Diameter' : 'Width'}
        value={value.width}
        reading={reading}
        units={units}
        onChange={(width) => set({ width })}
      />
      {hasHeight(value.kind) && (
        <LengthField
          label={value.kind === 'flat-bar' ? 'Thickness' : 'Height'}
          value={value.height}
          reading={reading}
          units={units}
          onChange={(height) => set({ height })}
        />
      )}
      {hasWall(value.kind) && (
        <TypedField
          label="Wall"
          keypad={units}
          unit={units}
          value={givenText(value.wall, reading, units)}
          read={(text) => readWall(text, value, units)}
          hint="A thickness, or a gauge as 16 ga."
          onChange={(wall) => set({ wall })}
        />
      )}
    </div>
  )
}

/** A section: one that the shop carries, or another that is typed in. */
export function SectionField(props: {
  readonly label: string
  readonly value: SectionGiven
  readonly carried: readonly CarriedSection[]
  readonly reading: Reading
  readonly units?: 'in' | 'mm' | undefined
  readonly onChange: (section: SectionGiven) => void
  readonly problem?: string | undefined
  readonly hint?: string | undefined
  readonly bare?: boolean
  readonly id?: string | undefined
}) {
  const { value, carried, reading, units = unitsOf(reading) } = props
  const resolved = resolveSection(value, units)
  const key = resolved.ok ? sectionKey(resolved.value) : null
  const at = carried.findIndex(({ section }) => sectionKey(section) === key)
  // A size that the shop does not carry is typed; its fields are shown once they are asked for, or are wrong.
  const [typing, setTyping] = useState(false)
  const chosen = typing || at < 0 ? 'own' : String(at)
  const problem = props.problem ?? (resolved.ok ? undefined : resolved.problems[0]?.text)
  return (
    <div className="section-field">
      <Pick
        label={props.label}
        bare={props.bare ?? false}
        id={props.id}
        hint={props.hint}
        problem={problem}
        options={[
          ...carried.map((one, index) => ({ value: String(index), label: one.name })),
          {
            value: 'own',
            label:
              chosen === 'own' && resolved.ok
                ? `${sectionName(resolved.value, reading)} (typed)`
                : 'another size …',
          },
        ]}
        value={chosen}
        onChange={(next) => {
          setTyping(next === 'own')
          const one = carried[Number(next)]
          if (next !== 'own' && one) props.onChange(givenOf(one.section))
        }}
      />
      {chosen === 'own' && !typing && !problem && (
        <button type="button" aria-label={`${props.label}: change its size`} onClick={() => setTyping(true)}>
          Change its size
        </button>
      )}
      {chosen === 'own' && (typing || problem) && (
        <OwnSection value={value} reading={reading} units={units} onChange={props.onChange} />
      )}
    </div>
  )
}
