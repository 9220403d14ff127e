import type { ParamSpec } from './build.ts'
import { levelerParams } from './leveler.ts'

const tube = (inch: string, mm: number, wallIn: string, wallMm: number) => ({
  in: { kind: 'square-tube' as const, width: inch, wall: wallIn },
  mm: { kind: 'square-tube' as const, width: mm, wall: wallMm },
})

const base = 'Base'
const feet = 'Feet'
const givesClear = (given: Readonly<Record<string, unknown>>) => given.footGives === 'clear under arm'

/** What a pedestal asks for below its top. */
export const pedestalParams: readonly ParamSpec[] = [
  {
    name: 'height',
    label: 'Overall height',
    type: 'length',
    start: { in: '30', mm: 740 },
    hint: 'Floor to the upper face, with the levelers as set below.',
    group: base,
  },
  {
    name: 'bars',
    label: 'Cross bars under the top',
    type: 'choice',
    start: 'two, crossing',
    choices: [
      { value: 'one', label: 'one' },
      { value: 'two, crossing', label: 'two, crossing' },
    ],
    group: base,
  },
  {
    name: 'barSection',
    label: 'Tube of the bars',
    type: 'section',
    start: tube('1 1/2', 40, '1/8', 3),
    group: base,
  },
  {
    name: 'barSetBack',
    label: 'Bar ends set back',
    type: 'length',
    start: { in: '0', mm: 0 },
    least: 0,
    why: 'bars do not stick out past the frame',
    group: base,
  },
  {
    name: 'postSection',
    label: 'Tube of the post',
    type: 'section',
    start: tube('3', 80, '1/8', 3),
    group: base,
  },
  {
    name: 'arms',
    label: 'Arms',
    type: 'choice',
    start: '4',
    choices: [
      { value: '2', label: 'two' },
      { value: '4', label: 'four' },
    ],
    group: base,
  },
  {
    name: 'armsMeet',
    label: 'Arms meet',
    type: 'choice',
    start: 'on the post',
    choices: [
      { value: 'on the post', label: 'on the post’s faces' },
      { value: 'crossing', label: 'crossing, post on top' },
    ],
    group: base,
  },
  {
    name: 'armSection',
    label: 'Tube of arms and feet',
    type: 'section',
    start: tube('2', 50, '1/8', 3),
    group: base,
  },
  {
    name: 'spread',
    label: 'Feet, outside to outside',
    type: 'length',
    start: { in: '24', mm: 600 },
    group: base,
  },
  {
    name: 'footGives',
    label: 'Given is',
    type: 'choice',
    start: 'foot height',
    choices: [
      { value: 'foot height', label: 'the foot’s height' },
      { value: 'clear under arm', label: 'the clear gap under the arms' },
    ],
    group: feet,
  },
  {
    name: 'footHeight',
    label: 'Foot, overall height',
    type: 'length',
    start: { in: '5', mm: 125 },
    hint: 'Top of the arm to the underside of the cap.',
    when: (given) => !givesClear(given),
    group: feet,
  },
  {
    name: 'clearUnder',
    label: 'Clear, floor to arms',
    type: 'length',
    start: { in: '3 1/2', mm: 100 },
    when: givesClear,
    group: feet,
  },
  ...levelerParams,
]
