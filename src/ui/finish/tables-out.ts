import type { RecordSection } from '../../core/finish/record.ts'
import type { Tapping } from '../../core/finish/tapping.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import { parseLength } from '../../core/reading/parse.ts'
import { showLength } from '../../core/reading/show.ts'
import type { Reading } from '../../core/shop.ts'
import { sayEngagement } from '../../core/thread.ts'
import { inch, type Mm } from '../../core/units.ts'
import type { Cell, TableOut } from '../fields/table-text.ts'
import { fine } from '../words.ts'

/** Drill and tap: a row for each kind of tapped hole. */
export const drillingOut = (rows: readonly Tapping[], reading: Reading): TableOut => ({
  heads: [
    'tap',
    'holes',
    'drill',
    'drill diameter',
    'turns a minute',
    'countersink to',
    'plate',
    'in the plate',
  ],
  rows: rows.map(({ thread, holes, thickness, countersink, rpm }) => [
    thread.name,
    holes,
    thread.drillName,
    showLength(thread.drill, fine(reading)),
    rpm,
    showLength(countersink, reading),
    showLength(thickness, fine(reading)),
    sayEngagement(thread.name, thickness, reading),
  ]),
})

/** Asked, planned and measured sizes of one copy. */
export const finalCheckOut = (
  { sizes }: Plan,
  reading: Reading,
  measured: (of: string) => Mm | undefined,
): TableOut => ({
  heads: ['size', 'asked', 'must be', 'planned', 'tacked', 'measured', 'off'],
  rows: sizes.map(({ name, asked, exact, built, tacked, printed }) => {
    const got = measured(`size:${name}`)
    return [
      name,
      asked ? 'asked' : 'follows',
      printed.exact,
      showLength(built, fine(reading)),
      tacked === undefined ? '' : showLength(tacked, fine(reading)),
      got === undefined ? '' : showLength(got, fine(reading)),
      got === undefined ? '' : showLength(got - exact, fine(reading)),
    ]
  }),
})

/** The figure and its unit in what the record says, `1/64 in less`; a text that is none stays a text. */
function figureIn(text: string): readonly [Cell, string] {
  const [, said = '', unit, way] = /^(.+?) (in|mm)( more| less)?$/.exec(text) ?? []
  if (unit === 'in' || unit === 'mm') {
    const read = parseLength(said, unit)
    if (read.ok)
      return [(way === ' less' ? -1 : 1) * (unit === 'in' ? read.value.mm / inch : read.value.mm), unit]
  }
  const [, plain, of = ''] = /^(-?\d+(?:\.\d+)?)(?: ?(°|min|lb|kg))?$/.exec(text) ?? []
  return plain === undefined ? [text, ''] : [Number(plain), of === '°' ? 'deg' : of]
}

/** The whole build record, a row for each figure that is known. */
export const recordOut = (sections: readonly RecordSection[]): TableOut => ({
  heads: ['part of the record', 'of', 'what', 'value', 'unit'],
  rows: sections.flatMap(({ title, columns, rows }) =>
    rows.flatMap(([name = '', ...cells]) =>
      cells.flatMap((cell, at): Cell[][] =>
        cell === '' ? [] : [[title, name, columns?.[at] ?? '', ...figureIn(cell)]],
      ),
    ),
  ),
})
