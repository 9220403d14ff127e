import type { ParamSpec } from '../../core/builds/build.ts'
import type { Given, Params, RowGiven, SectionGiven } from '../../core/job.ts'
import type { Problem } from '../../core/result.ts'
import type { Shop } from '../../core/shop.ts'
import { Pick } from '../fields/choice.tsx'
import { readCount } from '../fields/count.tsx'
import { AngleField, LengthField } from '../fields/length-field.tsx'
import { SectionField } from '../fields/section-field.tsx'
import { TextField } from '../fields/text-field.tsx'
import { TypedField } from '../fields/typed-field.tsx'
import { count } from '../words.ts'
import { namesAmong, newName } from './names.ts'
import { Paste } from './paste.tsx'

interface Props {
  readonly spec: ParamSpec
  readonly rows: readonly RowGiven[]
  /** All parameters of the job: a name in a cell may be that of another list's row. */
  readonly params: Params
  readonly shop: Shop
  readonly units: 'in' | 'mm'
  readonly problems: readonly Problem[]
  readonly onChange: (rows: readonly RowGiven[]) => void
}

/** A row without the cell `name`, or with a new value in it. */
function withCell(row: RowGiven, name: string, value: Given | SectionGiven | undefined): RowGiven {
  const { [name]: _, ...rest } = row
  return value === undefined ? rest : { ...rest, [name]: value }
}

/** A new row is like the last one, since most lists repeat themselves, but for a name that must be its own. */
function nextRow({ rows, params, units, ...props }: Props): RowGiven {
  const columns = props.spec.columns ?? []
  const like =
    rows.at(-1) ??
    Object.fromEntries(
      columns
        .filter(({ optional }) => !optional)
        .map(({ name, start }) => [
          name,
          (typeof start === 'object' && 'in' in start ? start[units] : start) as Given,
        ]),
    )
  return columns
    .filter(({ unique }) => unique)
    .reduce((row, column) => withCell(row, column.name, newName(column, rows, params)), like)
}

/** Rows of a list, typed cell by cell or pasted from a spreadsheet. */
export function Rows(props: Props) {
  const { spec, rows, onChange } = props
  const columns = spec.columns ?? []
  const replace = (at: number, row: RowGiven) =>
    onChange(rows.map((old, index) => (index === at ? row : old)))
  return (
    <div className="rows">
      <h2>{spec.label}</h2>
      {spec.hint && <p className="hint">{spec.hint}</p>}
      {props.problems
        .filter(({ field }) => field === `build.params.${spec.name}`)
        .map(({ text }) => (
          <p key={text} className="problem" role="alert">
            {text}
          </p>
        ))}
      <ol>
        {rows.map((row, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a row has no name but its place in the list
          <li key={at} className="row">
            <p className="row-number mark">{at + 1}</p>
            <div className="cells">
              {columns.map((column) => (
                <Cell
                  key={column.name}
                  {...props}
                  column={column}
                  row={at}
                  given={row[column.name]}
                  onGive={(value) => replace(at, withCell(row, column.name, value))}
                />
              ))}
            </div>
            <button
              type="button"
              aria-label={`Take out row ${at + 1}`}
              onClick={() => onChange(rows.filter((_, index) => index !== at))}
            >
              ✕
            </button>
          </li>
        ))}
      </ol>
      <button type="button" onClick={() => onChange([...rows, nextRow(props)])}>
        Add a row
      </button>
      <Paste {...props} />
    </div>
  )
}

/** What a name in a cell can be; one that is not among them any more stays in sight until another is chosen. */
function namesToPick(column: ParamSpec, params: Params, given: Given | undefined) {
  const names = namesAmong(column, params)
  const kept = given === undefined ? '' : String(given)
  const all = kept === '' || names.includes(kept) ? names : [kept, ...names]
  const blank = column.optional || kept === '' ? [{ value: '', label: '—' }] : []
  return [...blank, ...all.map((name) => ({ value: name, label: name }))]
}

function Cell(
  props: Props & {
    readonly column: ParamSpec
    readonly row: number
    readonly given: Given | SectionGiven | undefined
    readonly onGive: (value: Given | SectionGiven | undefined) => void
  },
) {
  const { column, row, given, shop, units, onGive } = props
  const path = `build.params.${props.spec.name}[${row}].${column.name}`
  const problem = props.problems.find(({ field }) => field === path || field?.startsWith(`${path}.`))?.text
  const plain = typeof given === 'object' ? undefined : given
  const common = { label: column.label, problem, optional: column.optional }
  switch (column.type) {
    case 'length':
      return <LengthField {...common} value={plain} reading={shop.reading} units={units} onChange={onGive} />
    case 'angle':
      return <AngleField {...common} value={plain} onChange={onGive} />
    case 'count':
      return (
        <TypedField
          {...common}
          keypad="plain"
          value={String(plain ?? '')}
          read={(text) => {
            const read = readCount(text, column.least ?? 1, column.most ?? Number.POSITIVE_INFINITY)
            return read.ok ? { ok: true, value: count(read.value, 'piece') } : read
          }}
          onChange={(text) => {
            const read = readCount(text, column.least ?? 1, column.most ?? Number.POSITIVE_INFINITY)
            if (read.ok) onGive(read.value)
          }}
        />
      )
    case 'text':
      return column.among ? (
        <Pick
          label={column.label}
          problem={problem}
          hint={column.hint}
          options={namesToPick(column, props.params, plain)}
          value={plain === undefined ? '' : String(plain)}
          onChange={(name) => onGive(name === '' ? undefined : name)}
        />
      ) : (
        <TextField {...common} value={String(plain ?? '')} onChange={onGive} />
      )
    case 'section':
      return typeof given === 'object' ? (
        <div className="own-cell">
          <SectionField
            label={column.label}
            value={given}
            carried={shop.sections}
            reading={shop.reading}
            units={units}
            onChange={onGive}
            problem={problem}
          />
          <button type="button" onClick={() => onGive(undefined)}>
            As the list
          </button>
        </div>
      ) : (
        <button
          type="button"
          className="own-section-key"
          onClick={() => onGive(shop.sections[0]?.section ?? (column.start as SectionGiven))}
        >
          A section of its own
        </button>
      )
    case 'choice':
      return (
        <Pick
          label={column.label}
          problem={problem}
          options={column.choices ?? []}
          value={String(plain ?? column.start)}
          onChange={onGive}
        />
      )
    default:
      return null
  }
}
