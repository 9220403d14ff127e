import type { Params } from '../job.ts'
import type { ParamSpec } from './build.ts'
import { levelerParams } from './leveler.ts'
import { onArms, pointChoices, standParams, tube } from './pedestal-stand-params.ts'

const base = 'Base'
const feet = 'Feet'
const givesClear = (given: Params) => onArms(given) && given.footGives === 'clear under arm'
const isSpider = (given: Params) => given.bars === 'spider'

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
    start: 'spider',
    choices: [
      { value: 'one', label: 'one' },
      { value: 'two, crossing', label: 'two, crossing' },
      { value: 'spider', label: 'spider on the post' },
    ],
    hint: 'Of a spider the post runs through to the upper face of its bars; they stop on it.',
    group: base,
  },
  {
    name: 'spiderBars',
    label: 'Bars of the spider',
    type: 'count',
    start: 4,
    least: 2,
    most: 6,
    why: 'a spider has two to six bars',
    late: true,
    when: isSpider,
    group: base,
  },
  {
    name: 'spiderPoint',
    label: 'Bar 1 points',
    type: 'choice',
    start: 'to the right',
    choices: pointChoices,
    late: true,
    when: isSpider,
    group: base,
  },
  {
    name: 'spiderAngle',
    label: 'Bar 1, from the right',
    type: 'angle',
    start: 45,
    hint: 'Seen from above, to the back.',
    late: true,
    when: (given) => isSpider(given) && given.spiderPoint === 'at an angle',
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
    name: 'postFaces',
    label: 'Faces of the post',
    type: 'choice',
    start: 'with the arms',
    choices: [
      { value: 'with the arms', label: 'square to arm 1, or to bar 1 of a spider' },
      { value: 'with the top', label: 'along side 1 of the top' },
    ],
    late: true,
    group: base,
  },
  ...standParams,
  {
    name: 'footGives',
    label: 'Given is',
    type: 'choice',
    start: 'foot height',
    choices: [
      { value: 'foot height', label: 'the foot’s height' },
      { value: 'clear under arm', label: 'the clear gap under the arms' },
    ],
    when: onArms,
    group: feet,
  },
  {
    name: 'footHeight',
    label: 'Foot, overall height',
    type: 'length',
    start: { in: '5', mm: 125 },
    hint: 'Top of the arm to the underside of the cap.',
    when: (given) => onArms(given) && !givesClear(given),
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
  ...levelerParams.map((spec) =>
    spec.name.startsWith('cap')
      ? { ...spec, when: (given: Params) => onArms(given) && (!spec.when || spec.when(given)) }
      : spec,
  ),
]
