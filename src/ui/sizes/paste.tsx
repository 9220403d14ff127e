import { useDeferredValue, useId, useMemo, useState } from 'react'
import type { ParamSpec } from '../../core/builds/build.ts'
import type { Given, RowGiven } from '../../core/job.ts'
import { resolveLength } from '../../core/reading/parse.ts'
import { say, sayMeasure, showLength } from '../../core/reading/show.ts'
import type { Result } from '../../core/result.ts'
import { resolveSection } from '../../core/section/given.ts'
import { sectionName } from '../../core/section/name.ts'
import type { Shop } from '../../core/shop.ts'
import { OpenFile } from '../fields/open-file.tsx'
import { count } from '../words.ts'
import { inSentence, lookAtPasted, type Pasted } from './pasted.ts'

interface Props {
  readonly spec: ParamSpec
  readonly rows: readonly RowGiven[]
  readonly shop: Shop
  readonly units: 'in' | 'mm'
  readonly onChange: (rows: readonly RowGiven[]) => void
}

const mostFaults = 8
const mostShown = 30

/** Text from a spreadsheet or a drawing's list: shown as it was understood, line by line, before any of it is taken. */
export function Paste({ spec, rows, shop, units, onChange }: Props) {
  const [text, setText] = useState('')
  const id = useId()
  const columns = spec.columns ?? []
  const heads = columns.map(({ label }) => inSentence(label))
  const later = useDeferredValue(text)
  const looked = useMemo(
    () => (later.trim() === '' ? null : lookAtPasted(later, spec.columns ?? [], units)),
    [later, spec, units],
  )
  const understood = looked?.ok ? looked.value.lines.flatMap(({ row }) => (row ? [row] : [])) : []
  const take = (before: readonly RowGiven[]) => {
    if (!looked?.ok) return
    onChange([...before, ...understood])
    const { head, lines } = looked.value
    const left = lines.filter(({ row }) => !row).map((line) => line.text)
    setText(left.length > 0 ? [...(head === undefined ? [] : [head]), ...left].join('\n') : '')
  }
  const these = count(understood.length, 'row')
  return (
    <details className="paste">
      <summary>Paste a list</summary>
      <div className="pasted">
        <div className="field">
          <label htmlFor={id}>
            One {spec.each ?? 'piece'} per line: {heads.join(', ')}; cells apart by tabs, semicolons or commas
          </label>
          <textarea
            id={id}
            rows={6}
            value={text}
            spellCheck={false}
            onChange={(event) => setText(event.target.value)}
          />
        </div>
        <p className="keys-row">
          <OpenFile
            label="From a CSV file"
            accept=".csv,.tsv,.txt,text/csv,text/plain"
            onText={async (given) => setText(given)}
          />
        </p>
        {looked && <Understood looked={looked} columns={columns} shop={shop} units={units} />}
        {understood.length > 0 && later === text && (
          <p className="keys-row">
            <button type="button" onClick={() => take(rows)}>
              Add {understood.length === 1 ? 'this row' : `these ${these}`}
            </button>
            <button type="button" onClick={() => take([])}>
              Replace all rows with {understood.length === 1 ? 'this one' : `these ${understood.length}`}
            </button>
          </p>
        )}
      </div>
    </details>
  )
}

function Understood(props: {
  readonly looked: Result<Pasted>
  readonly columns: readonly ParamSpec[]
  readonly shop: Shop
  readonly units: 'in' | 'mm'
}) {
  const { looked, columns, shop, units } = props
  if (!looked.ok)
    return (
      <p className="problem" role="alert">
        {looked.problems.map(({ text }) => text).join(' ')}
      </p>
    )
  const { lines, passed } = looked.value
  const faulty = lines.filter(({ row }) => !row)
  const problems = faulty.flatMap((line) => line.problems)
  const good = lines.flatMap(({ number, row }) => (row ? [{ number, row }] : []))
  const shown = columns.filter(({ name, type }) =>
    good.some(({ row }) => (type === 'angle' ? row[name] !== 0 : row[name] !== undefined)),
  )
  return (
    <section className="pasted" aria-label="What was understood">
      <p role="status">
        {count(good.length, 'row')} understood{totals(good, columns, shop, units)}.
        {faulty.length > 0 &&
          ` ${count(faulty.length, 'line is', 'lines are')} not, and will stay in the box to be put right:`}
      </p>
      {problems.length > 0 && (
        <ul className="problem plain-list" role="alert">
          {problems.slice(0, mostFaults).map((said) => (
            <li key={said}>{said}</li>
          ))}
          {problems.length > mostFaults && <li>and {problems.length - mostFaults} more</li>}
        </ul>
      )}
      {passed.length > 0 && (
        <p className="warning">Not taken, since no such column is known here: {passed.join(', ')}.</p>
      )}
      {good.length > 0 && (
        <table>
          <thead>
            <tr>
              <th scope="col">Line</th>
              {shown.map(({ name, label }) => (
                <th key={name} scope="col">
                  {label}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {good.slice(0, mostShown).map(({ number, row }) => (
              <tr key={number}>
                <th scope="row">{number}</th>
                {shown.map((column) => (
                  <td key={column.name}>{cellWords(row[column.name], column, shop, units)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {good.length > mostShown && <p className="dim">and {good.length - mostShown} more rows below these</p>}
    </section>
  )
}

/** `: 12 pieces, 288 in in all`, where rows have a count and one length. */
function totals(
  good: readonly { readonly row: RowGiven }[],
  columns: readonly ParamSpec[],
  shop: Shop,
  units: 'in' | 'mm',
): string {
  const counted = columns.find(({ type }) => type === 'count')
  const lengths = columns.filter(({ type }) => type === 'length')
  if (!counted || good.length === 0) return ''
  const pieces = good.reduce((sum, { row }) => sum + Number(row[counted.name] ?? 1), 0)
  const said = `: ${count(pieces, 'piece')}`
  const [length] = lengths
  if (!length || lengths.length > 1) return said
  const all = good.reduce((sum, { row }) => {
    const mm = resolveLength((row[length.name] ?? 0) as Given, units)
    return sum + Number(row[counted.name] ?? 1) * (mm.ok ? mm.value : 0)
  }, 0)
  return `${said}, ${say(all, shop.reading)} in all`
}

/** A cell as this shop says it. */
function cellWords(
  given: RowGiven[string] | undefined,
  column: ParamSpec,
  shop: Shop,
  units: 'in' | 'mm',
): string {
  if (given === undefined) return column.type === 'section' ? 'as the list' : '—'
  if (typeof given === 'object') {
    const section = resolveSection(given, units)
    return section.ok ? sectionName(section.value, shop.reading) : ''
  }
  if (column.type === 'angle') return `${given}°`
  if (column.type === 'choice') return column.choices?.find(({ value }) => value === given)?.label ?? ''
  if (column.type !== 'length') return String(given)
  const mm = resolveLength(given, units)
  return mm.ok ? sayMeasure(showLength(mm.value, shop.reading)) : ''
}
