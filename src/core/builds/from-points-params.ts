import type { RowGiven, SectionGiven } from '../job.ts'
import type { ParamSpec } from './build.ts'

const across: Pick<ParamSpec, 'type' | 'least' | 'most' | 'why'> = {
  type: 'length',
  least: -50_000,
  most: 50_000,
  why: 'a frame of more than 100 m is a slip of the keyboard',
}

/** Longest name, in letters: what still fits on the paper beside its numbers. */
const longest = 40

/** The rail is narrower than the legs: it lands on the flat of their faces. */
const startMembers = (rail: SectionGiven): RowGiven[] => [
  { name: 'Left leg', from: 'a', to: 'c' },
  { name: 'Right leg', from: 'b', to: 'd' },
  { name: 'Top', from: 'c', to: 'd' },
  { name: 'Rail', from: 'e', to: 'f', section: rail },
]

/** One side of a trestle: two legs that lean by 1 in 10, a top mitered to them, and a rail that stops on them. */
const start = {
  points: {
    mm: [
      { name: 'a', x: 0, y: 0, z: 0 },
      { name: 'b', x: 600, y: 0, z: 0 },
      { name: 'c', x: 70, y: 0, z: 700 },
      { name: 'd', x: 530, y: 0, z: 700 },
      { name: 'e', x: 20, y: 0, z: 200 },
      { name: 'f', x: 580, y: 0, z: 200 },
    ],
    in: [
      { name: 'a', x: '0', y: '0', z: '0' },
      { name: 'b', x: '24', y: '0', z: '0' },
      { name: 'c', x: '2 3/4', y: '0', z: '27 1/2' },
      { name: 'd', x: '21 1/4', y: '0', z: '27 1/2' },
      { name: 'e', x: '1', y: '0', z: '10' },
      { name: 'f', x: '23', y: '0', z: '10' },
    ],
  },
  members: {
    mm: startMembers({ kind: 'square-tube', width: 25, wall: 2 }),
    in: startMembers({ kind: 'square-tube', width: '1', wall: '1/8' }),
  },
  joints: [
    { at: 'a', how: 'flat' },
    { at: 'b', how: 'flat' },
  ],
}

export const fromPointsParams: readonly ParamSpec[] = [
  {
    name: 'section',
    label: 'Section',
    type: 'section',
    start: {
      in: { kind: 'square-tube', width: '1 1/2', wall: '1/8' },
      mm: { kind: 'square-tube', width: 40, wall: 3 },
    },
    hint: 'For every member that names none of its own.',
  },
  {
    name: 'points',
    label: 'Points',
    type: 'rows',
    start: start.points,
    each: 'point',
    hint: 'x to the right, y to the back, z up from the floor. The axes of the members go through the points.',
    columns: [
      { name: 'name', label: 'Point', type: 'text', start: 'a', most: longest, unique: true },
      { name: 'x', label: 'x, right', start: 0, ...across },
      { name: 'y', label: 'y, back', start: 0, ...across },
      { name: 'z', label: 'z, up', start: 0, ...across },
    ],
  },
  {
    name: 'members',
    label: 'Members',
    type: 'rows',
    start: start.members,
    each: 'member',
    hint:
      'Roll turns the section about its axis, as a right-hand screw going from its first point to its second. ' +
      'Without roll the height of the section looks up; an upright one has its width along x.',
    columns: [
      { name: 'name', label: 'Member', type: 'text', start: 'Rail', most: longest, unique: true },
      {
        name: 'from',
        label: 'From point',
        type: 'text',
        start: 'a',
        most: longest,
        among: { rows: 'points', column: 'name' },
      },
      {
        name: 'to',
        label: 'To point',
        type: 'text',
        start: 'b',
        most: longest,
        among: { rows: 'points', column: 'name' },
      },
      {
        name: 'roll',
        label: 'Roll',
        type: 'angle',
        start: 0,
        optional: true,
        least: -360,
        most: 360,
        why: 'once around is 360°',
      },
      {
        name: 'section',
        label: 'Section',
        type: 'section',
        start: { kind: 'square-tube', width: 40, wall: 3 },
        optional: true,
      },
    ],
  },
  {
    name: 'joints',
    label: 'Joints',
    type: 'rows',
    start: start.joints,
    each: 'joint',
    hint:
      'Without a joint of its own, a point with two ends is mitered, an end on the side of one other member stops on it, ' +
      'and an end alone is cut square. Three or more members need one.',
    columns: [
      {
        name: 'at',
        label: 'At point',
        type: 'text',
        start: 'a',
        most: longest,
        unique: true,
        among: { rows: 'points', column: 'name' },
      },
      {
        name: 'how',
        label: 'Joint',
        type: 'choice',
        start: 'miter',
        choices: [
          { value: 'miter', label: 'miter' },
          { value: 'butt', label: 'butt: one runs through' },
          { value: 'flat', label: 'flat: cut parallel to the floor' },
          { value: 'square', label: 'square: left open' },
        ],
      },
      {
        name: 'runs',
        label: 'Runs through',
        type: 'text',
        start: '',
        most: longest,
        optional: true,
        among: { rows: 'members', column: 'name' },
        hint: 'For a butt: the others stop on this one.',
      },
    ],
  },
]
