import type { ReactNode } from 'react'
import type { BenchCut, Plan } from '../core/plan-shapes.ts'
import type { Shop } from '../core/shop.ts'
import { partsSheet } from './parts-sheet.tsx'
import { hasSaddles, saddleSheet } from './saddle-sheet.tsx'
import type { PageSize } from './size.ts'
import { stockSheet } from './stock-sheet.tsx'
import { wallSheet } from './wall-sheet.tsx'
import { weldSheet } from './weld-sheet.tsx'

/** One sheet of paper: a new one is one new file and one line here. */
export interface Sheet {
  readonly id: string
  readonly title: string
  readonly about: string
  /** Only when there is a nest that the judges let pass. */
  readonly needsRun: boolean
  /** Where only some plans have it: whether this one does. */
  readonly only?: (plan: Plan) => boolean
  readonly pages: (plan: Plan, cuts: readonly BenchCut[], shop: Shop, page: PageSize) => readonly ReactNode[]
}

export const sheets: readonly Sheet[] = [
  {
    id: 'wall',
    title: 'Wall cut sheet',
    about: 'Every set-up in order, readable from 2 m, a tick box for every cut.',
    needsRun: true,
    pages: wallSheet,
  },
  {
    id: 'parts',
    title: 'Parts and layout marks',
    about: 'What each piece must be, and where it lands.',
    needsRun: false,
    pages: (plan, _cuts, shop, page) => partsSheet(plan, shop, page),
  },
  {
    id: 'stock',
    title: 'Sticks and buy list',
    about: 'What to buy, and which part comes out of which stick.',
    needsRun: true,
    pages: (plan, _cuts, shop, page) => stockSheet(plan, shop, page),
  },
  {
    id: 'weld',
    title: 'Weld sheet',
    about: 'Tacks, checks and passes in order.',
    needsRun: false,
    pages: (plan, _cuts, _shop, page) => weldSheet(plan, page),
  },
  {
    id: 'saddle',
    title: 'Saddle templates',
    about: 'At full size, to wrap round the tube and mark what is worked away after the saw.',
    needsRun: false,
    only: hasSaddles,
    pages: (plan, _cuts, _shop, page) => saddleSheet(plan, page),
  },
]

/** The sheets that this plan has something for. */
export const possibleSheets = (plan: Plan): readonly Sheet[] =>
  sheets.filter(({ needsRun, only }) => (!needsRun || plan.run) && (!only || only(plan)))
