import type { Params } from '../job.ts'
import type { ParamSpec } from './build.ts'
import { levelerParams } from './leveler.ts'

const tube = (inch: string, mm: number, wallIn: string, wallMm: number) => ({
  in: { kind: 'square-tube' as const, width: inch, wall: wallIn },
  mm: { kind: 'square-tube' as const, width: mm, wall: wallMm },
})

const legs = 'Legs'
const between = 'Between the pairs'
const crosses = (given: Params) => given.style !== 'A legs'
const stretched = (given: Params) => given.stretcher === 'yes'
const pairs = (given: Params) => given.pairs !== '1'
const tied = (given: Params) => !crosses(given) && given.tie === 'yes'
const yesNo = [
  { value: 'yes', label: 'yes' },
  { value: 'no', label: 'no' },
]

/** An upright stud meets the wall of a leaning leg sooner than that of an upright one. */
const shorterStud: Readonly<Record<string, Pick<ParamSpec, 'start'>>> = {
  levelerStud: { start: { in: '1', mm: 25 } },
  levelerMost: { start: { in: '3/4', mm: 20 } },
}

/** What crossing or leaning pairs of legs ask for. */
export const trestleParams: readonly ParamSpec[] = [
  {
    name: 'style',
    label: 'The legs',
    type: 'choice',
    start: 'X legs',
    choices: [
      { value: 'X legs', label: 'cross (X)' },
      { value: 'A legs', label: 'lean together (A)' },
    ],
    hint: 'Of crossing legs one runs through; the other is cut in two halves that stop on it.',
    group: legs,
  },
  {
    name: 'height',
    label: 'Overall height',
    type: 'length',
    start: { in: '28', mm: 710 },
    hint: 'Floor to the upper face of the top bars, with the levelers as set below.',
    group: legs,
  },
  {
    name: 'feet',
    label: 'Feet of a pair, outside to outside',
    type: 'length',
    start: { in: '26', mm: 660 },
    group: legs,
  },
  {
    name: 'upper',
    label: 'Upper ends, outside to outside',
    type: 'length',
    start: { in: '22', mm: 560 },
    group: legs,
  },
  {
    name: 'legSection',
    label: 'Tube of the legs',
    type: 'section',
    start: tube('2', 50, '1/8', 3),
    hint: 'Rectangular tube: its greater side is seen from the side of the pair.',
    group: legs,
  },
  {
    name: 'barSection',
    label: 'Tube of the top bars',
    type: 'section',
    // Wider than the legs: they land on its flat.
    start: {
      in: { kind: 'rect-tube', width: '3', height: '1 1/2', wall: '1/8' },
      mm: { kind: 'rect-tube', width: 80, height: 40, wall: 3 },
    },
    hint: 'Rectangular tube lies flat.',
    group: legs,
  },
  {
    name: 'barLength',
    label: 'Top bars, length',
    type: 'length',
    start: { in: '26', mm: 660 },
    group: legs,
  },
  {
    name: 'tie',
    label: 'A tie between the legs',
    type: 'choice',
    start: 'yes',
    choices: yesNo,
    when: (given) => !crosses(given),
    group: legs,
  },
  {
    name: 'tieHeight',
    label: 'Upper face of the tie',
    type: 'length',
    start: { in: '10', mm: 250 },
    hint: 'From the floor.',
    when: tied,
    group: legs,
  },
  {
    name: 'tieSection',
    label: 'Tube of the tie',
    type: 'section',
    // Higher than the stretcher that lands on it, no wider than the flat of the legs.
    start: {
      in: { kind: 'square-tube', width: '1 1/2', wall: '1/8' },
      mm: { kind: 'rect-tube', width: 40, height: 30, wall: 2 },
    },
    when: tied,
    group: legs,
  },
  {
    name: 'pairs',
    label: 'Pairs of legs',
    type: 'choice',
    start: '2',
    choices: [
      { value: '1', label: 'one' },
      { value: '2', label: 'two' },
    ],
    group: between,
  },
  {
    name: 'length',
    label: 'Over both pairs, outside',
    type: 'length',
    start: { in: '48', mm: 1200 },
    when: pairs,
    group: between,
  },
  {
    name: 'stretcher',
    label: 'A stretcher between the pairs',
    type: 'choice',
    start: 'yes',
    choices: yesNo,
    hint: 'At the crossing, or from tie to tie.',
    when: pairs,
    group: between,
  },
  {
    name: 'stretcherSection',
    label: 'Tube of the stretcher',
    type: 'section',
    // Turned on a leaning leg it takes up to its diagonal of the face.
    start: tube('1', 25, '1/8', 2),
    when: (given) => pairs(given) && stretched(given),
    group: between,
  },
  ...levelerParams.map((spec) => ({ ...spec, ...shorterStud[spec.name] })),
]
