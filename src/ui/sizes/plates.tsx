import { useMemo, useState } from 'react'
import type { Plate } from '../../core/frame/frame.ts'
import type { Plan, PlatePart } from '../../core/plan-shapes.ts'
import { guideToEdge } from '../../core/plates/cut-line.ts'
import { dxfOf } from '../../core/plates/dxf.ts'
import { scribedWords } from '../../core/plates/scribed.ts'
import { type Cutting, type SheetDrawing, sheetDrawing } from '../../core/plates/sheet-drawing.ts'
import { svgOf } from '../../core/plates/svg.ts'
import { say, unitOf } from '../../core/reading/show.ts'
import type { Reading, Shop } from '../../core/shop.ts'
import { inch, type Mm } from '../../core/units.ts'
import { Choice } from '../fields/choice.tsx'
import { fileName, saveFile } from '../fields/files.ts'
import { MmField } from '../fields/length-field.tsx'
import { TakeTable } from '../fields/take-table.tsx'
import { MarkingList } from './marking-list.tsx'
import { PlateDrawing } from './plate-drawing.tsx'
import { markingsOut } from './tables-out.ts'

const guides = [
  { value: 'none', label: 'none' },
  { value: 'keep', label: 'on the part' },
  { value: 'waste', label: 'on the waste' },
] as const
type Guide = (typeof guides)[number]['value']

interface Marked {
  readonly part: PlatePart
  readonly plate: Plate
  readonly count: number
}

/** The first plate of each mark, and how many there are of it in one. */
function marked({ plates, frame }: Plan): readonly Marked[] {
  const byId = new Map(frame.plates.map((plate) => [plate.id, plate]))
  const found = new Map<string, Marked>()
  for (const part of plates) {
    const before = found.get(part.mark)
    const plate = byId.get(part.id)
    if (before) found.set(part.mark, { ...before, count: before.count + 1 })
    else if (plate) found.set(part.mark, { part, plate, count: 1 })
  }
  return [...found.values()]
}

/** How to mark and cut each plate: its corners from two factory edges, lines for the torch, files for a table. */
export function Plates({ plan, shop }: { readonly plan: Plan; readonly shop: Shop }) {
  const inches = unitOf(shop.reading) === 'in'
  const [kerf, setKerf] = useState<Mm>(inches ? inch / 16 : 1.5)
  const [offset, setOffset] = useState<Mm>(inches ? inch / 2 : 12)
  const [guide, setGuide] = useState<Guide>('none')
  const all = useMemo(() => marked(plan), [plan])
  if (all.length === 0) return null
  const cutting: Cutting = { kerf, ...(guide === 'none' ? {} : { guide: { offset, side: guide } }) }
  const last = all.find(({ plate }) => plate.scribed !== undefined)
  return (
    <section className="figures plates" aria-labelledby="plates-head">
      <h2 id="plates-head">Marking out plates</h2>
      {/* 29 CFR 1910.252(a)(2) for 35 ft and the fire watch; the rest is common practice. */}
      <p className="warning">
        Cut with plasma or a torch: fume drawn off, eyes and skin covered, ears too, nothing that burns within
        35 ft (11 m), and a fire watch after. Sparks and dross leave under the sheet: look there as well.
        Power off before a part of the torch is changed. The cutter’s manual comes first.
      </p>
      {last && (
        <p>
          <strong>{last.part.mark} is cut last.</strong>{' '}
          {scribedWords(last.plate, (mm) => say(mm, shop.reading))} Its numbers here are those of the drawing;
          to cut it now by them, say so above, at “It is cut”.
        </p>
      )}
      <div className="plate-cutting">
        <MmField
          label="Kerf of the cut"
          hint="0 where the cutting table allows for it itself."
          value={kerf}
          reading={shop.reading}
          onChange={(mm) => mm !== undefined && setKerf(mm)}
        />
        <Choice
          label="Straight edge for a hand torch"
          options={guides}
          value={guide}
          onChange={(value) => setGuide(value as Guide)}
        />
        {guide !== 'none' && (
          <MmField
            label="Guide offset"
            hint="From the straight edge to the middle of the cut; measure it on your torch."
            value={offset}
            reading={shop.reading}
            onChange={(mm) => mm !== undefined && setOffset(mm)}
          />
        )}
      </div>
      {guide !== 'none' && <GuideLine offset={offset} kerf={kerf} side={guide} reading={shop.reading} />}
      {all.map((each) => (
        <OnePlate key={each.part.mark} of={each} job={plan.name} cutting={cutting} reading={shop.reading} />
      ))}
    </section>
  )
}

function GuideLine(props: {
  readonly offset: Mm
  readonly kerf: Mm
  readonly side: 'keep' | 'waste'
  readonly reading: Reading
}) {
  const { offset, kerf, side, reading } = props
  // Half a kerf is less than most shops read: the straight edge is laid finer.
  const fine: Reading =
    unitOf(reading) === 'mm' ? { kind: 'mm', step: 0.1 } : { kind: 'inch-fraction', denominator: 64 }
  const away = say(guideToEdge(offset, kerf, side), fine)
  return (
    <p>
      Lay the straight edge <strong>{away}</strong>{' '}
      {side === 'keep' ? 'inside the edge of the part' : 'outside the edge of the part'}, and run the cut
      straight on past each corner. Try it on a piece of scrap first.
    </p>
  )
}

function OnePlate(props: {
  readonly of: Marked
  readonly job: string
  readonly cutting: Cutting
  readonly reading: Reading
}) {
  const { of, job, cutting, reading } = props
  const { part, plate, count } = of
  const [open, setOpen] = useState(false)
  return (
    <details className="plate" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>
        <span className="mark">{part.mark}</span> {count > 1 && `${count} × `}
        {part.name}, {part.text}
      </summary>
      {open && <Opened plate={plate} name={`${job} ${part.mark}`} cutting={cutting} reading={reading} />}
    </details>
  )
}

function Opened(props: {
  readonly plate: Plate
  readonly name: string
  readonly cutting: Cutting
  readonly reading: Reading
}) {
  const { plate, name, cutting, reading } = props
  const drawing: SheetDrawing = useMemo(() => sheetDrawing(plate, name, cutting), [plate, name, cutting])
  const units = unitOf(reading)
  return (
    <div className="plate-open">
      <PlateDrawing drawing={drawing} />
      <MarkingList marking={drawing.marking} reading={reading} />
      <TakeTable name={name} what="marking out" table={() => markingsOut(drawing.marking, reading)} />
      <div className="buttons">
        <button
          type="button"
          onClick={() => saveFile(fileName(name, 'dxf'), dxfOf(drawing, units), 'image/vnd.dxf')}
        >
          Save as DXF, in {units === 'in' ? 'inches' : 'mm'}
        </button>
        <button
          type="button"
          onClick={() => saveFile(fileName(name, 'svg'), svgOf(drawing), 'image/svg+xml')}
        >
          Save as SVG, full size
        </button>
      </div>
      <p className="dim">
        In the files: the edge of the part{drawing.cut && ', the middle of the cut'}, holes
        {drawing.guides.length > 0 && ', guide lines'}, each on a layer of its own.
      </p>
    </div>
  )
}
