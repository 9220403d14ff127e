import type { ParamSpec } from '../../core/builds/build.ts'
import type { Given, ParamGiven, Params, RowGiven, SectionGiven } from '../../core/job.ts'
import type { Problem } from '../../core/result.ts'
import type { Shop } from '../../core/shop.ts'
import { Choice, Flag, Pick } from '../fields/choice.tsx'
import { Count } from '../fields/count.tsx'
import { AngleField, LengthField } from '../fields/length-field.tsx'
import { SectionField } from '../fields/section-field.tsx'
import { TextField } from '../fields/text-field.tsx'
import { Rows } from './rows.tsx'

/** DOM id of a parameter's field: a dimension on the drawing leads here. */
export const fieldId = (name: string): string => `param-${name}`

/** The problems that belong to a parameter or to something inside it. */
export const problemsOf = (problems: readonly Problem[], name: string): readonly Problem[] => {
  const path = `build.params.${name}`
  return problems.filter(
    ({ field }) => field === path || field?.startsWith(`${path}.`) || field?.startsWith(`${path}[`),
  )
}

/** More choices than this, or longer words, are a list; fewer stand side by side. */
const fewest = 4
const shortest = 34

const isSection = (given: ParamGiven | undefined): given is SectionGiven =>
  typeof given === 'object' && !Array.isArray(given) && 'kind' in given

const isGiven = (given: ParamGiven | undefined): given is Given =>
  typeof given === 'number' || typeof given === 'string'

/** One parameter of a build as a field. */
export function ParamField(props: {
  readonly spec: ParamSpec
  readonly given: ParamGiven | undefined
  /** All parameters of the job. */
  readonly params: Params
  readonly shop: Shop
  readonly units: 'in' | 'mm'
  readonly problems: readonly Problem[]
  readonly onChange: (given: ParamGiven) => void
}) {
  const { spec, given, shop, units, onChange } = props
  const problem = problemsOf(props.problems, spec.name)[0]?.text
  const common = { label: spec.label, hint: spec.hint, problem, id: fieldId(spec.name) }
  switch (spec.type) {
    case 'length':
      return (
        <LengthField
          {...common}
          optional={spec.optional}
          value={isGiven(given) ? given : undefined}
          reading={shop.reading}
          units={units}
          onChange={onChange}
        />
      )
    case 'angle':
      return <AngleField {...common} value={isGiven(given) ? given : undefined} onChange={onChange} />
    case 'count':
      return (
        <Count
          {...common}
          value={Number(given ?? 0)}
          least={spec.least}
          most={spec.most}
          onChange={onChange}
        />
      )
    case 'choice': {
      const choices = spec.choices ?? []
      const value = typeof given === 'string' ? given : ''
      const long = choices.reduce((sum, { label }) => sum + label.length, 0) > shortest
      return choices.length > fewest || long ? (
        <Pick {...common} options={choices} value={value} onChange={onChange} />
      ) : (
        <Choice
          label={spec.label}
          hint={spec.hint}
          problem={problem}
          options={choices}
          value={value}
          onChange={onChange}
        />
      )
    }
    case 'text':
      return (
        <TextField
          {...common}
          optional={spec.optional}
          value={isGiven(given) ? String(given) : ''}
          onChange={onChange}
        />
      )
    case 'flag':
      return <Flag label={spec.label} hint={spec.hint} value={given === true} onChange={onChange} />
    case 'section':
      return isSection(given) ? (
        <SectionField
          {...common}
          value={given}
          carried={shop.sections}
          reading={shop.reading}
          units={units}
          onChange={onChange}
        />
      ) : null
    case 'rows':
      return (
        <Rows
          spec={spec}
          params={props.params}
          rows={Array.isArray(given) ? (given as readonly RowGiven[]) : []}
          shop={shop}
          units={units}
          problems={problemsOf(props.problems, spec.name)}
          onChange={onChange}
        />
      )
  }
}
