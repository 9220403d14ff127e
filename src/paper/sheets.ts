import type { ReactNode } from 'react'
import type { Fact, Progress } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { BenchCut, Plan } from '../core/plan-shapes.ts'
import type { Shop } from '../core/shop.ts'
import { fitSheet } from './fit-sheet.tsx'
import { frameSheet } from './frame-sheet.tsx'
import { gaugeSheet } from './gauge-sheet.tsx'
import { listSheet } from './list-sheet.tsx'
import { partSheet } from './part-sheet.tsx'
import { partsSheet } from './parts-sheet.tsx'
import { plateSheet } from './plate-sheet.tsx'
import { recordSheet } from './record-sheet.tsx'
import { hasSaddles, saddleSheet } from './saddle-sheet.tsx'
import type { PageSize } from './size.ts'
import { stockSheet } from './stock-sheet.tsx'
import { tagSheet } from './tag-sheet.tsx'
import { wallSheet } from './wall-sheet.tsx'
import { weldSheet } from './weld-sheet.tsx'

/** The job as it was given, and what was done of it so far. */
export interface SoFar {
  readonly job: Job
  readonly progress: Progress
  readonly facts: readonly Fact[]
  /** Jobs that are bought together with this one, on the same sticks. */
  readonly beside?: readonly Plan[]
}

/** One sheet of paper: a new one is one new file and one line here. */
export interface Sheet {
  readonly id: string
  readonly title: string
  readonly about: string
  /** Only when there is a nest that the judges let pass. */
  readonly needsRun: boolean
  /** Chosen until the person says otherwise: what hangs on the wall of any job. */
  readonly usual: boolean
  /** Where only some plans have it: whether this one does. */
  readonly only?: (plan: Plan) => boolean
  readonly pages: (
    plan: Plan,
    cuts: readonly BenchCut[],
    shop: Shop,
    page: PageSize,
    soFar: SoFar,
  ) => readonly ReactNode[]
}

export const sheets: readonly Sheet[] = [
  {
    id: 'wall',
    title: 'Wall cut sheet',
    about: 'Every set-up in order, readable from 2 m, a tick box for every cut.',
    needsRun: true,
    usual: true,
    pages: wallSheet,
  },
  {
    id: 'list',
    title: 'Cut list',
    about: 'Every piece of every copy with a box to tick, under a true picture of it.',
    needsRun: false,
    usual: false,
    pages: (plan, _cuts, shop, page) => listSheet(plan, shop, page),
  },
  {
    id: 'parts',
    title: 'Parts and layout marks',
    about: 'What each piece must be, and where it lands.',
    needsRun: false,
    usual: true,
    pages: (plan, _cuts, shop, page) => partsSheet(plan, shop, page),
  },
  {
    id: 'frame',
    title: 'Drawing of the frame',
    about: 'From above, from the front and from the right, with marks and dimensions.',
    needsRun: false,
    usual: false,
    only: ({ frame }) => frame.joints.length > 0,
    pages: (plan, _cuts, shop, page) => frameSheet(plan, shop, page),
  },
  {
    id: 'drawings',
    title: 'Part drawings',
    about: 'Each part by itself: four faces with angles and layout marks, and which face is down.',
    needsRun: false,
    usual: false,
    pages: (plan, _cuts, shop, page) => partSheet(plan, shop, page),
  },
  {
    id: 'stock',
    title: 'Sticks and buy list',
    about: 'What to buy, and which part comes out of which stick.',
    needsRun: true,
    usual: true,
    pages: (plan, _cuts, shop, page, { beside }) => stockSheet(plan, shop, page, beside),
  },
  {
    id: 'tags',
    title: 'Stick and drop tags',
    about: 'Which stick, which pieces in which order; the mark of every drop that is kept.',
    needsRun: true,
    usual: false,
    pages: tagSheet,
  },
  {
    id: 'fit',
    title: 'Fit-up',
    about: 'What the tape must read on every closed loop, what lies under what, and the table laid out.',
    needsRun: false,
    usual: true,
    only: ({ frame }) => frame.joints.length > 0,
    pages: (plan, _cuts, shop, page) => fitSheet(plan, shop, page),
  },
  {
    id: 'weld',
    title: 'Weld sheet',
    about: 'Tacks, checks and passes in order.',
    needsRun: false,
    usual: true,
    pages: (plan, _cuts, _shop, page) => weldSheet(plan, page),
  },
  {
    id: 'saddle',
    title: 'Saddle templates',
    about: 'At full size, to wrap round the tube and mark what is worked away after the saw.',
    needsRun: false,
    usual: false,
    only: hasSaddles,
    pages: (plan, _cuts, _shop, page) => saddleSheet(plan, page),
  },
  {
    id: 'gauge',
    title: 'Angle gauges',
    about: 'A paper triangle for each angle, at full size, to hold against blade and cut end.',
    needsRun: false,
    usual: false,
    only: (plan) => plan.parts.some(({ shape }) => shape !== 'square'),
    pages: gaugeSheet,
  },
  {
    id: 'plate',
    title: 'Plates',
    about: 'At full size where they fit on the paper; corners and holes from two edges.',
    needsRun: false,
    usual: false,
    only: ({ plates }) => plates.length > 0,
    pages: (plan, _cuts, shop, page) => plateSheet(plan, shop, page),
  },
  {
    id: 'record',
    title: 'Build record',
    about: 'Asked, planned, measured, settings, times and notes of each copy; lines to fill in by hand.',
    needsRun: false,
    usual: false,
    pages: (plan, _cuts, shop, page, soFar) => recordSheet(plan, shop, page, soFar),
  },
]

/** The sheets that this plan has something for. */
export const possibleSheets = (plan: Plan): readonly Sheet[] =>
  sheets.filter(({ needsRun, only }) => (!needsRun || plan.run) && (!only || only(plan)))
