import type { Params } from '../job.ts'
import type { ParamSpec } from './build.ts'
import { hasTwoSides, topParams } from './top.ts'

/** More bars than this in one row are a slip of the keyboard. */
export const mostBars = 200

const stands = (
  name: string,
  group: string,
  section: string,
  when: (given: Params) => boolean = () => true,
): ParamSpec => ({
  name,
  label: name === 'stands' ? 'The tube lies' : 'They lie',
  type: 'choice',
  start: 'flat',
  choices: [
    { value: 'flat', label: 'flat' },
    { value: 'on edge', label: 'on edge' },
  ],
  hint: 'The greater side flat, or upright.',
  when: (given) => when(given) && hasTwoSides(given[section]),
  group,
})

const frameParams: readonly ParamSpec[] = [
  {
    name: 'sizeIs',
    label: 'The size is',
    type: 'choice',
    start: 'outside',
    choices: [
      { value: 'outside', label: 'outside' },
      { value: 'clear inside', label: 'clear inside' },
    ],
    group: 'Frame',
  },
  { name: 'length', label: 'Length', type: 'length', start: { in: '36', mm: 900 }, group: 'Frame' },
  { name: 'width', label: 'Width', type: 'length', start: { in: '24', mm: 600 }, group: 'Frame' },
  {
    name: 'section',
    label: 'Tube of the frame',
    type: 'section',
    start: {
      in: { kind: 'square-tube', width: '2', wall: '1/8' },
      mm: { kind: 'square-tube', width: 40, wall: 3 },
    },
    group: 'Frame',
  },
  stands('stands', 'Frame', 'section'),
  {
    name: 'corners',
    label: 'Corners',
    type: 'choice',
    start: 'mitered',
    choices: [
      { value: 'mitered', label: 'mitered' },
      { value: 'side rails through', label: 'butted, the side rails run through' },
      { value: 'end rails through', label: 'butted, the end rails run through' },
    ],
    hint: 'Side rails lie along the length, end rails along the width.',
    group: 'Frame',
  },
]

/** What cross bars and infill both ask; their names begin with `of`. */
function rowOfBars(
  of: 'bar' | 'infill',
  group: string,
  start: Pick<ParamSpec, 'start'>['start'],
  run: 'across' | 'along',
): ParamSpec[] {
  const by = of === 'bar' ? 'bars' : 'infill'
  const some = (given: Params) => given[by] !== undefined && given[by] !== 'none'
  return [
    {
      name: by,
      label: group,
      type: 'choice',
      start: of === 'bar' ? 'evenly' : 'none',
      choices: [
        { value: 'none', label: 'none' },
        { value: 'evenly', label: 'evenly spaced' },
        { value: 'centers', label: 'at center distances' },
      ],
      group,
    },
    {
      name: `${of}Count`,
      label: of === 'bar' ? 'How many' : 'How many in each field',
      type: 'count',
      start: of === 'bar' ? 1 : 4,
      least: 1,
      most: mostBars,
      why: `a row holds 1 to ${mostBars} bars`,
      when: (given) => given[by] === 'evenly',
      ...(of === 'infill' ? { hint: 'A field is what the cross bars leave between them.' } : {}),
      group,
    },
    {
      name: `${of}Centers`,
      label: 'Middles of the bars',
      type: 'rows',
      start: { in: [{ at: '12' }], mm: [{ at: 300 }] },
      columns: [{ name: 'at', label: 'Middle at', type: 'length', start: { in: '12', mm: 300 } }],
      when: (given) => given[by] === 'centers',
      hint: 'Each from the outside of the frame: from its left, or from its front where the bars run along.',
      group,
    },
    {
      name: `${of}Run`,
      label: 'They run',
      type: 'choice',
      start: run,
      choices: [
        { value: 'across', label: 'across the width' },
        { value: 'along', label: 'along the length' },
      ],
      when: some,
      group,
    },
    {
      name: `${of}Section`,
      label: `Steel of the ${group.toLowerCase()}`,
      type: 'section',
      start,
      when: some,
      group,
    },
    stands(`${of}Stands`, group, `${of}Section`, some),
  ]
}

export const rectParams: readonly ParamSpec[] = [
  ...frameParams,
  ...rowOfBars(
    'bar',
    'Cross bars',
    {
      in: { kind: 'square-tube', width: '1 1/2', wall: '1/8' },
      mm: { kind: 'square-tube', width: 25, wall: 2 },
    },
    'across',
  ),
  ...rowOfBars(
    'infill',
    'Infill',
    { in: { kind: 'square-bar', width: '1/2' }, mm: { kind: 'square-bar', width: 12 } },
    'along',
  ),
  {
    name: 'barsLie',
    label: 'Bars in the height of the frame',
    type: 'choice',
    start: 'on top',
    choices: [
      { value: 'on top', label: 'flush on top' },
      { value: 'in the middle', label: 'in the middle' },
      { value: 'underneath', label: 'flush underneath' },
    ],
    when: ({ bars, infill }) => (bars ?? 'none') !== 'none' || (infill ?? 'none') !== 'none',
    group: 'Infill',
  },
  ...topParams,
]
