import * as v from 'valibot'
import type { Given, Job, ParamGiven, RowGiven } from '../core/job.ts'
import { sectionGiven, typed } from './section-shape.ts'
import { fields, flag, id, list, name, number, oneOf, type Shape, shapeOf, text, whole } from './shape.ts'

const given = v.lazy(
  (value): Shape<Given> =>
    typeof value === 'string' ? typed : number('a number of mm, or a length as typed, such as "9 5/8"'),
)

const namesAndValues = 'an object of names and values'

/** Parameters of one build, and cells of one row: ten times what any build of ours has. */
const mostNames = 200

/** Rows of one list: as many as a cut list may have pieces. */
const mostRows = 2000

const noList = v.custom<never>(() => false, namesAndValues)

/** An object of names and values of one shape. A list would pass for one whose names are 0, 1, 2: it is kept out. */
function named<T>(value: Shape<T>) {
  const open = v.pipe(
    v.record(text(60), value, namesAndValues),
    v.maxEntries(mostNames, `an object of at most ${mostNames} names`),
  )
  return v.lazy((given): Shape<Record<string, T>> => (Array.isArray(given) ? noList : open))
}

const row = named(
  v.lazy((value): Shape<RowGiven[string]> => (typeof value === 'object' && value ? sectionGiven : given)),
)

// What a parameter means is for its build to say; the door only keeps out what no parameter can be.
const param = v.lazy((value): Shape<ParamGiven> => {
  if (typeof value === 'boolean') return flag
  if (Array.isArray(value))
    return v.pipe(list('rows', row), v.maxLength(mostRows, `a list of at most ${mostRows} rows`))
  if (typeof value === 'object' && value) return sectionGiven
  return given
})

const drawnIn = number('a length of more than 0, to 5 mm', { above: 0, most: 5 })

export const job = shapeOf<Job>()(
  fields('a job', {
    id,
    name,
    units: v.optional(oneOf('in', 'mm')),
    build: fields('a build', { kind: text(60), params: named(param) }),
    quantity: whole(1, 1000),
    seam: v.optional(oneOf('top', 'bottom', 'inside', 'outside')),
    way: v.optional(oneOf('square first', 'from the stick', 'paired')),
    note: v.optional(text(10_000, 0)),
    shrinkage: v.optional(
      fields('what the welds draw in', {
        miter: v.optional(drawnIn),
        butt: v.optional(drawnIn),
        flat: v.optional(drawnIn),
        saddle: v.optional(drawnIn),
      }),
    ),
    from: v.optional(id),
    oneStick: v.optional(
      v.pipe(
        list(
          'wishes, each a list of members',
          v.pipe(list('members', text(300)), v.maxLength(mostRows, `a list of at most ${mostRows} members`)),
        ),
        v.maxLength(mostNames, `a list of at most ${mostNames} wishes`),
      ),
    ),
  }),
)
