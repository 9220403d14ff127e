import type { Params } from '../job.ts'
import type { ParamSpec } from './build.ts'

// What a pedestal asks of its arms, or of the base plate that stands instead of them.

/** An inch tube and a metric one, as a new job starts. */
export const tube = (inch: string, mm: number, wallIn: string, wallMm: number) => ({
  in: { kind: 'square-tube' as const, width: inch, wall: wallIn },
  mm: { kind: 'square-tube' as const, width: mm, wall: wallMm },
})

const base = 'Base'
export const onArms = (given: Params) => given.base !== 'base plate'
const onPlate = (given: Params) => !onArms(given)
const onHub = (given: Params) => onArms(given) && given.armsMeet === 'hub plate'
const drilled = (given: Params) => onPlate(given) && given.levelers !== false

/** Where the first arm or bar points. */
export const pointChoices = [
  { value: 'to the right', label: 'to the right' },
  { value: 'to a side', label: 'to the middle of a side of the top' },
  { value: 'to a corner', label: 'to a corner of the top' },
  { value: 'at an angle', label: 'at an angle' },
]

export const standParams: readonly ParamSpec[] = [
  {
    name: 'base',
    label: 'It stands on',
    type: 'choice',
    start: 'arms',
    choices: [
      { value: 'arms', label: 'arms' },
      { value: 'base plate', label: 'a base plate' },
    ],
    late: true,
    group: base,
  },
  {
    name: 'baseShape',
    label: 'Base plate',
    type: 'choice',
    start: 'square',
    choices: [
      { value: 'square', label: 'square' },
      { value: 'round', label: 'round' },
    ],
    late: true,
    when: onPlate,
    group: base,
  },
  {
    name: 'baseSize',
    label: 'Base plate, across',
    type: 'length',
    start: { in: '18', mm: 450 },
    late: true,
    when: onPlate,
    group: base,
  },
  {
    name: 'baseThickness',
    label: 'Base plate, thickness',
    type: 'length',
    start: { in: '3/8', mm: 10 },
    late: true,
    when: onPlate,
    group: base,
  },
  {
    name: 'baseHolesIn',
    label: 'Holes in from the edge',
    type: 'length',
    start: { in: '1', mm: 25 },
    hint: 'Four holes for the leveling feet, one to a corner.',
    late: true,
    when: drilled,
    group: base,
  },
  {
    name: 'arms',
    label: 'Arms',
    type: 'choice',
    start: '4',
    choices: [
      { value: '2', label: 'two' },
      { value: '3', label: 'three' },
      { value: '4', label: 'four' },
      { value: '5', label: 'five' },
      { value: '6', label: 'six' },
    ],
    when: onArms,
    group: base,
  },
  {
    name: 'armsPoint',
    label: 'Arm 1 points',
    type: 'choice',
    start: 'to the right',
    choices: pointChoices,
    hint: 'The others follow evenly, counterclockwise seen from above.',
    late: true,
    when: onArms,
    group: base,
  },
  {
    name: 'armsAngle',
    label: 'Arm 1, from the right',
    type: 'angle',
    start: 45,
    hint: 'Seen from above, to the back.',
    late: true,
    when: (given) => onArms(given) && given.armsPoint === 'at an angle',
    group: base,
  },
  {
    name: 'armsMeet',
    label: 'Arms meet',
    type: 'choice',
    start: 'on the post',
    choices: [
      { value: 'on the post', label: 'on the post, flush with its foot' },
      { value: 'crossing', label: 'crossing, post on top' },
      { value: 'hub plate', label: 'under a hub plate, post on top' },
    ],
    hint: 'Round arms on a round post get saddles; on a flat face an arm that comes at an angle is cut obliquely.',
    when: onArms,
    group: base,
  },
  {
    name: 'hubShape',
    label: 'Hub plate',
    type: 'choice',
    start: 'round',
    choices: [
      { value: 'round', label: 'round' },
      { value: 'square', label: 'square' },
    ],
    late: true,
    when: onHub,
    group: base,
  },
  {
    name: 'hubSize',
    label: 'Hub plate, across',
    type: 'length',
    start: { in: '8', mm: 200 },
    late: true,
    when: onHub,
    group: base,
  },
  {
    name: 'hubThickness',
    label: 'Hub plate, thickness',
    type: 'length',
    start: { in: '3/8', mm: 10 },
    late: true,
    when: onHub,
    group: base,
  },
  {
    name: 'armSection',
    label: 'Tube of arms and feet',
    type: 'section',
    start: tube('2', 50, '1/8', 3),
    when: onArms,
    group: base,
  },
  {
    name: 'spread',
    label: 'Feet, outside to outside',
    type: 'length',
    start: { in: '24', mm: 600 },
    hint: 'Of an odd number of feet: twice from the middle to the outside of a foot.',
    when: onArms,
    group: base,
  },
]
