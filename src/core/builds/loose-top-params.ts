import type { Params } from '../job.ts'
import type { ParamSpec } from './build.ts'
import { tubeParams } from './top.ts'

const size = 'Top and frame'
const tabs = 'Tabs'
const ofWood = (given: Params) => given.topOf === 'wood'

/** What a frame round a loose top asks for. */
export const looseTopParams: readonly ParamSpec[] = [
  {
    name: 'sizeIs',
    label: 'The size is of',
    type: 'choice',
    start: 'top',
    choices: [
      { value: 'top', label: 'the loose top' },
      { value: 'outside', label: 'the frame, outside' },
    ],
    group: size,
  },
  { name: 'length', label: 'Length', type: 'length', start: { in: '48', mm: 1200 }, group: size },
  { name: 'width', label: 'Width', type: 'length', start: { in: '24', mm: 600 }, group: size },
  {
    name: 'topOf',
    label: 'The top is',
    type: 'choice',
    start: 'wood',
    choices: [
      { value: 'wood', label: 'wood' },
      { value: 'stone', label: 'stone' },
      { value: 'glass', label: 'glass' },
    ],
    group: size,
  },
  {
    name: 'topThickness',
    label: 'Thickness of the top, pads with it',
    type: 'length',
    start: { in: '3/4', mm: 20 },
    group: size,
  },
  {
    name: 'edgeGap',
    label: 'Gap at its edge',
    type: 'length',
    start: { in: '1/8', mm: 3 },
    least: 0,
    why: 'the top is no greater than its frame',
    hint: 'All round. Wood grows and shrinks across its grain: ask who makes it.',
    group: size,
  },
  {
    name: 'proud',
    label: 'It stands proud of the frame by',
    type: 'length',
    start: { in: '0', mm: 0 },
    hint: '0 for flush; less than 0 lies below it.',
    group: size,
  },
  ...tubeParams('Tube of the frame', size),
  {
    name: 'tabsLong',
    label: 'Tabs on each long side',
    type: 'count',
    start: 3,
    least: 0,
    most: 30,
    why: 'a side holds up to thirty tabs',
    group: tabs,
  },
  {
    name: 'tabsShort',
    label: 'Tabs on each short side',
    type: 'count',
    start: 2,
    least: 0,
    most: 30,
    why: 'a side holds up to thirty tabs',
    group: tabs,
  },
  { name: 'tabWidth', label: 'Along the rail', type: 'length', start: { in: '1 1/2', mm: 40 }, group: tabs },
  {
    name: 'tabReach',
    label: 'Reach under the top',
    type: 'length',
    start: { in: '1 1/2', mm: 40 },
    group: tabs,
  },
  { name: 'tabThickness', label: 'Thickness', type: 'length', start: { in: '3/16', mm: 5 }, group: tabs },
  {
    name: 'slotWidth',
    label: 'Slot, width',
    type: 'length',
    start: { in: '1/4', mm: 6 },
    hint: 'For the screw; the slots run across the grain.',
    when: ofWood,
    group: tabs,
  },
  {
    name: 'slotLength',
    label: 'Slot, over all',
    type: 'length',
    start: { in: '3/4', mm: 18 },
    when: ofWood,
    group: tabs,
  },
  {
    name: 'grain',
    label: 'The grain runs',
    type: 'choice',
    start: 'along the length',
    choices: [
      { value: 'along the length', label: 'along the length' },
      { value: 'along the width', label: 'along the width' },
    ],
    when: ofWood,
    group: tabs,
  },
  {
    name: 'barCount',
    label: 'Bars under the top',
    type: 'count',
    start: 0,
    least: 0,
    most: 20,
    why: 'a frame holds up to twenty bars',
    hint: 'From front to back, evenly spaced.',
    group: 'Bars',
  },
  {
    name: 'barSection',
    label: 'Their steel',
    type: 'section',
    start: {
      in: { kind: 'square-tube', width: '1', wall: '1/8' },
      mm: { kind: 'square-tube', width: 20, wall: 2 },
    },
    when: (given) => Number(given.barCount) > 0,
    group: 'Bars',
  },
]
