import type { Warning } from '../frame/frame.ts'
import type { CuttingWay, NestPart, NestProblem } from '../nest.ts'
import { bySection, nestPart, type OnRack, problemOf } from '../parts/demand.ts'
import { byCopy } from '../parts/one-stick.ts'
import type { Part } from '../plan-shapes.ts'
import { type Section, sectionKey } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { pairedParts } from './pairs.ts'
import { seamNotes, stickParts } from './stick-demand.ts'

export interface Demand {
  /** One problem per section, in the order of the parts. */
  readonly problems: readonly NestProblem[]
  /** What this way cannot do for some pieces, and why. */
  readonly notes: readonly Warning[]
}

/** What is to be made, and from what: `rack` is what lies there now. */
export interface Order {
  readonly parts: readonly Part[]
  readonly job: string
  readonly quantity: number
  readonly rack: readonly OnRack[]
}

/** What a nest must solve when each section is cut in the way that is named for it. */
export function demandByWay(order: Order, shop: Shop, wayOf: (section: Section) => CuttingWay): Demand {
  const { job, quantity, rack } = order
  const notes: Warning[] = []
  const asked = (parts: readonly Part[], section: Section, way: CuttingWay): readonly NestPart[] => {
    if (way === 'from the stick') {
      const fromStick = stickParts(parts, section, job, quantity, shop)
      notes.push(...seamNotes(parts, fromStick))
      return fromStick
    }
    if (way === 'square first')
      return parts.flatMap((part) => byCopy(nestPart(part, job, quantity, shop), part))
    const paired = pairedParts(parts, section, job, quantity, shop)
    notes.push(...paired.notes)
    return paired.parts
  }
  const problems = bySection(order.parts).map(({ section, parts }) => {
    const way = wayOf(section)
    return problemOf(section, way, asked(parts, section, way), shop, rack)
  })
  return { problems, notes }
}

/** The way of each section of a nest; `otherwise` for one that it does not have. */
export function waysIn(
  sections: readonly { readonly section: Section; readonly way: CuttingWay }[],
  otherwise: CuttingWay,
): (section: Section) => CuttingWay {
  const ways = new Map(sections.map(({ section, way }) => [sectionKey(section), way]))
  return (section) => ways.get(sectionKey(section)) ?? otherwise
}
