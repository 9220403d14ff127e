import type { Given, ParamGiven, Params, RowGiven, SectionGiven } from '../job.ts'
import { parseAngle, parseCount, parseLength } from '../reading/parse.ts'
import { bad, badAll, good, type Problem, type Result } from '../result.ts'
import { resolveSection } from '../section/given.ts'
import type { Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import type { Build, ParamSpec, RowValue, Value, Values } from './build.ts'
import { startOf } from './start.ts'

export interface ReadContext {
  /** How a bare number in a typed string is read. */
  readonly units: 'in' | 'mm'
  readonly say: (mm: Mm) => string
}

/** Values of all parameters whose `when` holds, or every problem with them, each naming its field. */
export function valuesOf(build: Build, params: Params, context: ReadContext): Result<Values> {
  const problems: Problem[] = []
  const values: Record<string, Value> = {}
  for (const spec of build.params) {
    if (spec.when && !spec.when(params)) continue
    const field = `build.params.${spec.name}`
    const given = params[spec.name] ?? (spec.late ? startOf(spec, context.units) : undefined)
    if (given === undefined) {
      if (!spec.optional) problems.push(missing(spec, field))
      continue
    }
    const read = readParam(spec, given, field, context)
    if (read.ok) values[spec.name] = read.value
    else problems.push(...read.problems)
  }
  for (const name of Object.keys(params))
    if (!build.params.some((spec) => spec.name === name))
      problems.push({
        code: 'unknown-parameter',
        text: `“${name}” is no parameter of ${build.title.toLowerCase()}; it has ${build.params.map((spec) => spec.name).join(', ')}.`,
        field: `build.params.${name}`,
      })
  return problems.length > 0 ? badAll(problems) : good(values)
}

const missing = (spec: ParamSpec, field: string): Problem => ({
  code: 'missing',
  text: `“${spec.label}” is missing${spec.choices ? `; it can be ${spec.choices.map(({ value }) => value).join(', ')}` : ''}.`,
  field,
})

/** What a file gave, short enough to stand in a sentence. */
function shown(given: ParamGiven): string {
  const text = JSON.stringify(given)
  return text.length > 60 ? `${text.slice(0, 60)}…` : text
}

function readParam(spec: ParamSpec, given: ParamGiven, field: string, context: ReadContext): Result<Value> {
  switch (spec.type) {
    case 'length':
      return inRange(spec, lengthOf(given, context.units), field, context.say)
    case 'angle':
      return inRange(spec, numberOf(given, parseAngle, 'an angle in degrees'), field, (deg) => `${deg}°`)
    case 'count': {
      const count = numberOf(given, parseCount, 'a whole number')
      const whole =
        count.ok && !Number.isInteger(count.value)
          ? bad('not-whole', `“${spec.label}” was given as ${shown(given)}; it must be a whole number.`)
          : count
      return inRange(spec, whole, field, String)
    }
    case 'choice':
      return spec.choices?.some(({ value }) => value === given)
        ? good(given as string)
        : bad(
            'choice',
            `“${spec.label}” was given as ${shown(given)}; it can be ${spec.choices?.map(({ value }) => value).join(', ')}.`,
            field,
          )
    case 'flag':
      return typeof given === 'boolean'
        ? good(given)
        : bad('flag', `“${spec.label}” was given as ${shown(given)}; it can be true or false.`, field)
    case 'text':
      return textOf(spec, given, field)
    case 'section':
      return at(field, sectionOf(spec, given, context.units))
    case 'rows':
      return rowsOf(spec, given, field, context)
  }
}

/** The problems of a reading, moved to the field. */
const at = <T>(field: string, read: Result<T>): Result<T> =>
  read.ok
    ? read
    : badAll(
        read.problems.map((problem) => ({
          ...problem,
          field: problem.field ? `${field}.${problem.field}` : field,
        })),
      )

function lengthOf(given: ParamGiven, units: 'in' | 'mm'): Result<number> {
  if (typeof given === 'number') return finite(given, 'a length in mm')
  if (typeof given !== 'string') return bad('not-a-length', `${shown(given)} was given; a length is wanted.`)
  const read = parseLength(given, units)
  return read.ok ? good(read.value.mm) : read
}

function numberOf(given: ParamGiven, parse: (text: string) => Result<number>, what: string): Result<number> {
  if (typeof given === 'number') return finite(given, what)
  if (typeof given !== 'string') return bad('not-a-number', `${shown(given)} was given; ${what} is wanted.`)
  return parse(given)
}

const finite = (given: number, what: string): Result<number> =>
  Number.isFinite(given) ? good(given) : bad('not-a-number', `${String(given)} was given; ${what} is wanted.`)

function inRange(
  spec: ParamSpec,
  read: Result<number>,
  field: string,
  say: (value: number) => string,
): Result<number> {
  if (!read.ok) return at(field, read)
  const { least, most, why } = spec
  const reason = why ? `: ${why}` : ''
  if (least !== undefined && read.value < least)
    return bad(
      'too-small',
      `“${spec.label}” was given as ${say(read.value)}; it must be ${say(least)} or more${reason}.`,
      field,
    )
  if (most !== undefined && read.value > most)
    return bad(
      'too-great',
      `“${spec.label}” was given as ${say(read.value)}; it must be ${say(most)} or less${reason}.`,
      field,
    )
  return read
}

/** A name or a few words, spaces put in order; a number in a file is the name that it looks like. */
function textOf(spec: ParamSpec, given: ParamGiven, field: string): Result<string> {
  if (typeof given !== 'string' && typeof given !== 'number')
    return bad('not-a-text', `“${spec.label}” was given as ${shown(given)}; a text is wanted.`, field)
  const text = String(given).trim().replace(/\s+/g, ' ')
  if (text === '') return bad('missing', `“${spec.label}” is missing.`, field)
  // A letter is one or two units of the text: few texts need to be counted.
  if (spec.most === undefined || text.length <= spec.most) return good(text)
  const letters = [...text].length
  return letters > spec.most
    ? bad(
        'too-long',
        `“${spec.label}” was given as ${letters} letters; it can have ${spec.most} or fewer.`,
        field,
      )
    : good(text)
}

function sectionOf(spec: ParamSpec, given: ParamGiven, units: 'in' | 'mm'): Result<Section> {
  const isSection = typeof given === 'object' && !Array.isArray(given) && 'kind' in given
  return isSection
    ? resolveSection(given as SectionGiven, units)
    : bad('section', `“${spec.label}” was given as ${shown(given)}; a section is wanted.`)
}

function rowsOf(
  spec: ParamSpec,
  given: ParamGiven,
  field: string,
  context: ReadContext,
): Result<readonly RowValue[]> {
  if (!Array.isArray(given))
    return bad('rows', `“${spec.label}” was given as ${shown(given)}; a list of rows is wanted.`, field)
  const problems: Problem[] = []
  const rows = (given as readonly RowGiven[]).map((row, index): RowValue => {
    const values: Record<string, number | string | Section> = {}
    const columns = spec.columns ?? []
    for (const name of Object.keys(row))
      if (!columns.some((column) => column.name === name))
        problems.push({
          code: 'unknown-column',
          text: `Row ${index + 1}: “${name}” is no column of ${spec.name}; it has ${columns.map((column) => column.name).join(', ')}.`,
          field: `${field}[${index}].${name}`,
        })
    for (const column of columns) {
      const cell: Given | SectionGiven | undefined = row[column.name]
      const cellField = `${field}[${index}].${column.name}`
      if (cell === undefined || cell === '') {
        if (!column.optional)
          problems.push({
            code: 'missing',
            text: `Row ${index + 1}: “${column.label}” is missing.`,
            field: cellField,
          })
        continue
      }
      const read = readParam(column, cell, cellField, context)
      if (read.ok) values[column.name] = read.value as number | string | Section
      else
        problems.push(
          ...read.problems.map((problem) => ({ ...problem, text: `Row ${index + 1}: ${problem.text}` })),
        )
    }
    return values
  })
  return problems.length > 0 ? badAll(problems) : good(rows)
}
