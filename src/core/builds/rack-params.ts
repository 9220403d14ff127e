import type { Params } from '../job.ts'
import type { ParamSpec } from './build.ts'
import { levelerParams } from './leveler.ts'

const tube = (inch: string, mm: number, wallIn: string, wallMm: number) => ({
  in: { kind: 'square-tube' as const, width: inch, wall: wallIn },
  mm: { kind: 'square-tube' as const, width: mm, wall: wallMm },
})

const size = 'Rack'
const tiers = 'Tiers'
const typed = (given: Params) => given.tiersBy === 'heights'
const shelved = (given: Params) => given.shelves === 'sheet'
const braced = (given: Params) => given.braces !== 'none'

/** What a rack asks for. */
export const rackParams: readonly ParamSpec[] = [
  { name: 'length', label: 'Length, outside', type: 'length', start: { in: '48', mm: 1200 }, group: size },
  { name: 'depth', label: 'Depth, outside', type: 'length', start: { in: '20', mm: 500 }, group: size },
  {
    name: 'height',
    label: 'Height of the uprights',
    type: 'length',
    start: { in: '60', mm: 1500 },
    hint: 'Floor to their upper ends, with the levelers as set below.',
    group: size,
  },
  {
    name: 'bays',
    label: 'Bays along the length',
    type: 'count',
    start: 1,
    least: 1,
    most: 6,
    why: 'a rack has one to six bays, one pair of uprights more than bays',
    group: size,
  },
  {
    name: 'section',
    label: 'Tube of the uprights',
    type: 'section',
    start: tube('1 1/2', 40, '1/8', 3),
    hint: 'Rectangular tube: its greater side goes along the length.',
    group: size,
  },
  {
    name: 'railSection',
    label: 'Tube of the rails',
    type: 'section',
    start: tube('1', 25, '1/8', 2),
    hint: 'Rectangular tube stands on edge.',
    group: tiers,
  },
  {
    name: 'railsSit',
    label: 'Rails stand',
    type: 'choice',
    start: 'flush',
    choices: [
      { value: 'middle', label: 'on the middle of the uprights' },
      { value: 'flush', label: 'flush with their outside' },
    ],
    group: tiers,
  },
  {
    name: 'tiersBy',
    label: 'Tiers',
    type: 'choice',
    start: 'evenly',
    choices: [
      { value: 'evenly', label: 'evenly spaced' },
      { value: 'heights', label: 'at heights that are given' },
    ],
    group: tiers,
  },
  {
    name: 'tierCount',
    label: 'How many',
    type: 'count',
    start: 4,
    least: 2,
    most: 20,
    why: 'evenly spaced tiers are two to twenty',
    when: (given) => !typed(given),
    group: tiers,
  },
  {
    name: 'lowest',
    label: 'Lowest, its upper face',
    type: 'length',
    start: { in: '6', mm: 150 },
    hint: 'From the floor.',
    when: (given) => !typed(given),
    group: tiers,
  },
  {
    name: 'highest',
    label: 'Highest, its upper face',
    type: 'length',
    start: { in: '58', mm: 1450 },
    hint: 'From the floor.',
    when: (given) => !typed(given),
    group: tiers,
  },
  {
    name: 'heights',
    label: 'Upper faces of the tiers',
    type: 'rows',
    start: { in: [{ at: '6' }, { at: '32' }, { at: '58' }], mm: [{ at: 150 }, { at: 800 }, { at: 1450 }] },
    columns: [{ name: 'at', label: 'From the floor', type: 'length', start: { in: '12', mm: 300 } }],
    each: 'tier',
    when: typed,
    group: tiers,
  },
  {
    name: 'shelves',
    label: 'On the tiers',
    type: 'choice',
    start: 'none',
    choices: [
      { value: 'none', label: 'nothing' },
      { value: 'sheet', label: 'sheet, notched round the uprights' },
    ],
    group: tiers,
  },
  {
    name: 'shelfThickness',
    label: 'Its thickness',
    type: 'length',
    start: { in: '1/8', mm: 3 },
    when: shelved,
    group: tiers,
  },
  {
    name: 'notchClear',
    label: 'Clear round the uprights',
    type: 'length',
    start: { in: '1/16', mm: 2 },
    least: 0,
    why: 'a notch is no smaller than the upright',
    when: shelved,
    group: tiers,
  },
  {
    name: 'braces',
    label: 'Braces',
    type: 'choice',
    start: 'back',
    choices: [
      { value: 'none', label: 'none' },
      { value: 'back', label: 'in the back' },
      { value: 'ends', label: 'in both ends' },
      { value: 'back and ends', label: 'in the back and both ends' },
    ],
    hint: 'Between two tiers, from upright to upright, both ends cut obliquely.',
    group: 'Braces',
  },
  {
    name: 'bracesIn',
    label: 'Between',
    type: 'choice',
    start: 'lowest',
    choices: [
      { value: 'lowest', label: 'the two lowest tiers' },
      { value: 'every', label: 'all tiers, leaning to and fro' },
    ],
    when: braced,
    group: 'Braces',
  },
  {
    name: 'braceSection',
    label: 'Tube of the braces',
    type: 'section',
    start: tube('1', 25, '1/8', 2),
    when: braced,
    group: 'Braces',
  },
  ...levelerParams,
]
