import type { ParamSpec } from './build.ts'
import { levelerParams } from './leveler.ts'
import { hasTwoSides, topParams } from './top.ts'

type Given = Readonly<Record<string, unknown>>

const tube = (inch: string, mm: number, wallIn: string, wallMm: number) => ({
  in: { kind: 'square-tube' as const, width: inch, wall: wallIn },
  mm: { kind: 'square-tube' as const, width: mm, wall: wallMm },
})

const top = 'Top frame'
const legs = 'Legs'
const between = 'Stretchers'
const lies = [
  { value: 'flat', label: 'flat' },
  { value: 'on edge', label: 'on edge' },
]

const bare = (given: Given) => given.upper === 'rails between the legs'
const framed = (given: Given) => !bare(given)
const splayed = (given: Given) => given.splay === 'angles' || given.splay === 'feet'
const stretched = (given: Given) => given.stretchers !== undefined && given.stretchers !== 'none'
const shelfPossible = (given: Given) => given.stretchers === 'around' || given.stretchers === 'H'
const shelved = (given: Given) => shelfPossible(given) && given.shelf === true

/** What a four-leg frame asks for. */
export const fourLegParams: readonly ParamSpec[] = [
  {
    name: 'length',
    label: 'Length',
    type: 'length',
    start: { in: '48', mm: 1200 },
    hint: 'Outside of the frame at the top, left to right; splayed feet and a top that hangs over come on top of it.',
    group: top,
  },
  {
    name: 'width',
    label: 'Width',
    type: 'length',
    start: { in: '24', mm: 600 },
    hint: 'Outside of the frame at the top, front to back.',
    group: top,
  },
  {
    name: 'height',
    label: 'Overall height',
    type: 'length',
    start: { in: '30', mm: 740 },
    hint: 'Floor to the upper face, with the levelers as set below.',
    group: top,
  },
  {
    name: 'upper',
    label: 'The legs carry',
    type: 'choice',
    start: 'mitered frame',
    choices: [
      { value: 'mitered frame', label: 'a frame with mitered corners' },
      { value: 'frame, long sides through', label: 'a frame, its sides along the length run through' },
      { value: 'frame, short sides through', label: 'a frame, its sides along the width run through' },
      { value: 'rails between the legs', label: 'no frame: rails between the legs' },
    ],
    group: top,
  },
  {
    name: 'section',
    label: 'Tube of the frame or rails',
    type: 'section',
    start: tube('1 1/2', 40, '1/8', 3),
    group: top,
  },
  {
    name: 'stands',
    label: 'The tube lies',
    type: 'choice',
    start: 'flat',
    choices: lies,
    hint: 'The greater side flat, or upright.',
    when: ({ section }) => hasTwoSides(section),
    group: top,
  },
  {
    name: 'railsSit',
    label: 'Rails stand',
    type: 'choice',
    start: 'middle',
    choices: [
      { value: 'middle', label: 'on the middle of the legs' },
      { value: 'flush', label: 'flush with the outside of the legs' },
    ],
    when: bare,
    group: top,
  },
  ...topParams,
  {
    name: 'legSection',
    label: 'Tube of the legs',
    type: 'section',
    start: tube('1 1/2', 40, '1/8', 3),
    group: legs,
  },
  {
    name: 'legStands',
    label: 'Its greater side goes',
    type: 'choice',
    start: 'along the length',
    choices: [
      { value: 'along the length', label: 'along the length' },
      { value: 'along the width', label: 'along the width' },
    ],
    hint: 'On a tube turned to its lean: along the lean, or across it.',
    when: ({ legSection }) => hasTwoSides(legSection),
    group: legs,
  },
  {
    name: 'legsMeet',
    label: 'Legs meet the frame',
    type: 'choice',
    start: 'under the corners',
    choices: [
      { value: 'under the corners', label: 'from below, under its corners' },
      { value: 'inside the corners', label: 'inside its corners, up to its upper face' },
    ],
    when: framed,
    group: legs,
  },
  {
    name: 'legInset',
    label: 'Set in from the outside by',
    type: 'length',
    start: { in: '0', mm: 0 },
    least: 0,
    why: 'legs do not stand out past the frame',
    when: (given) => framed(given) && given.legsMeet !== 'inside the corners',
    group: legs,
  },
  {
    name: 'splay',
    label: 'Legs stand',
    type: 'choice',
    start: 'straight',
    choices: [
      { value: 'straight', label: 'straight' },
      { value: 'angles', label: 'splayed, angles given' },
      { value: 'feet', label: 'splayed, feet given' },
    ],
    group: legs,
  },
  {
    name: 'leanLength',
    label: 'Lean along the length',
    type: 'angle',
    start: 8,
    least: 0,
    most: 45,
    why: 'legs lean outward, and one that leans more than 45° is a brace',
    hint: 'From upright, as seen from the front.',
    when: (given) => given.splay === 'angles',
    group: legs,
  },
  {
    name: 'leanWidth',
    label: 'Lean along the width',
    type: 'angle',
    start: 8,
    least: 0,
    most: 45,
    why: 'legs lean outward, and one that leans more than 45° is a brace',
    hint: 'From upright, as seen from the side.',
    when: (given) => given.splay === 'angles',
    group: legs,
  },
  {
    name: 'feetLength',
    label: 'Feet, along the length',
    type: 'length',
    start: { in: '54', mm: 1360 },
    hint: 'Outside to outside, where the legs end.',
    when: (given) => given.splay === 'feet',
    group: legs,
  },
  {
    name: 'feetWidth',
    label: 'Feet, along the width',
    type: 'length',
    start: { in: '30', mm: 760 },
    hint: 'Outside to outside, where the legs end.',
    when: (given) => given.splay === 'feet',
    group: legs,
  },
  {
    name: 'legTurned',
    label: 'The tube is turned',
    type: 'choice',
    start: 'square to the frame',
    choices: [
      { value: 'square to the frame', label: 'square to the frame' },
      { value: 'to the lean', label: 'to the lean' },
    ],
    hint:
      'Square to the frame: rails land on its faces, and legs that lean both ways get a miter with a bevel. ' +
      'To the lean: one plain miter, and no rails.',
    when: splayed,
    group: legs,
  },
  {
    name: 'stretchers',
    label: 'Between the legs, low',
    type: 'choice',
    start: 'none',
    choices: [
      { value: 'none', label: 'nothing' },
      { value: 'around', label: 'stretchers all around' },
      { value: 'ends', label: 'a stretcher at each end' },
      { value: 'H', label: 'a stretcher at each end and one between them' },
    ],
    group: between,
  },
  {
    name: 'stretcherSection',
    label: 'Tube of the stretchers',
    type: 'section',
    start: tube('1', 30, '16 ga', 2),
    when: stretched,
    group: between,
  },
  {
    name: 'stretcherStands',
    label: 'Their tube lies',
    type: 'choice',
    start: 'flat',
    choices: lies,
    hint: 'The greater side flat, or upright.',
    when: (given) => stretched(given) && hasTwoSides(given.stretcherSection),
    group: between,
  },
  {
    name: 'stretcherHeight',
    label: 'Floor to their upper face',
    type: 'length',
    start: { in: '6', mm: 150 },
    when: stretched,
    group: between,
  },
  {
    name: 'shelf',
    label: 'Shelf on the stretchers',
    type: 'flag',
    start: false,
    when: shelfPossible,
    group: between,
  },
  {
    name: 'shelfThickness',
    label: 'Thickness of the shelf',
    type: 'length',
    start: { in: '1/8', mm: 3 },
    when: shelved,
    group: between,
  },
  {
    name: 'shelfClear',
    label: 'Clear of the legs by',
    type: 'length',
    start: { in: '1/16', mm: 2 },
    least: 0,
    why: 'a shelf does not go into a leg',
    when: shelved,
    group: between,
  },
  ...levelerParams,
]
