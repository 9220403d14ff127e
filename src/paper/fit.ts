import { feetOf, footPlate } from '../core/finish/floor.ts'
import { blocksUnder, type Load, loadsOf, lyingsOf, usualLying } from '../core/fitup/blocks.ts'
import { builtCorners } from '../core/fitup/built.ts'
import { straight } from '../core/fitup/centering.ts'
import { type Loop, loopsOf } from '../core/fitup/loops.ts'
import { layoutOf, needPlate, type TableLayout, usualClear } from '../core/fitup/table.ts'
import { flatMay, lengthMay, sayMay, tapesOf } from '../core/fitup/tapes.ts'
import {
  blockLines,
  centerLines,
  layoutLines,
  plateText,
  sayAt,
  sayOutermost,
  standLines,
} from '../core/fitup/words.ts'
import type { Point } from '../core/geometry/polygon.ts'
import type { Plan } from '../core/plan-shapes.ts'
import { say, unitOf } from '../core/reading/show.ts'
import type { Shop } from '../core/shop.ts'
import type { Mm } from '../core/units.ts'
import type { Block, Strip } from './flow.ts'
import { bodyWide, lineHigh, linesOf, type PageSize } from './size.ts'

// The fit-up sheet: what the tape must read on every closed loop, with room for what it does read; where one stands on
// another; the table of a repeat with what lies under what; the feet.

export type FitStrip =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'pair'; readonly texts: readonly string[] }
  /** What must be read, and empty boxes for what was. */
  | { readonly kind: 'measure'; readonly label: string; readonly must: string; readonly boxes: number }
  | { readonly kind: 'corners'; readonly corners: readonly Point[] }
  | { readonly kind: 'table'; readonly layout: TableLayout; readonly clear: Mm }

/** Height of a drawing of a loop, and of a table. */
export const loopHigh: Mm = 42
export const tableHigh: Mm = 78
/** Widths of what must be read and of a box, mm; as in paper.css. */
const [mustWide, boxWide] = [40, 26] as const

type FitBlock = Block<string, FitStrip>

/** What the strips need to know of the page. */
interface Sheet {
  readonly plan: Plan
  readonly shop: Shop
  readonly wide: Mm
}

const text = ({ wide }: Sheet, words: string): Strip<FitStrip> => ({
  high: linesOf(words, wide) * lineHigh + 2,
  what: { kind: 'text', text: words },
})

const measure = ({ wide }: Sheet, label: string, must: string, boxes = 1): Strip<FitStrip> => ({
  high: linesOf(label, wide - mustWide - boxes * boxWide) * lineHigh + 4,
  what: { kind: 'measure', label, must, boxes },
})

const pairs = (texts: readonly string[]): readonly Strip<FitStrip>[] =>
  Array.from({ length: Math.ceil(texts.length / 2) }, (_, at) => ({
    high: lineHigh,
    what: { kind: 'pair', texts: texts.slice(2 * at, 2 * at + 2) },
  }))

const head = ({ wide }: Sheet, words: string): Strip<string> => ({
  high: linesOf(words, wide, 'bold') * lineHigh + 4,
  what: words,
})

/** Loops that read alike are said once. */
function alike(loops: readonly Loop[], { plan, shop }: Sheet) {
  const found = new Map<string, { readonly loop: Loop; count: number }>()
  for (const loop of loops) {
    const read = tapesOf(loop, plan.parts).map(
      ({ label, expected }) => `${label} ${say(expected, shop.reading)}`,
    )
    const key = [loop.ring, ...read].join('|')
    const same = found.get(key)
    if (same) same.count += 1
    else found.set(key, { loop, count: 1 })
  }
  return [...found.values()]
}

function loopBlock(sheet: Sheet, loop: Loop, count: number): FitBlock {
  const { plan, shop } = sheet
  const tapes = tapesOf(loop, plan.parts)
  const may = shop.general?.linear
    ? [...new Set(tapes.map(({ expected }) => sayMay(lengthMay(shop, expected), shop.reading)))]
    : []
  const flat = flatMay(shop, Math.max(...tapes.map(({ expected }) => expected)))
  const n = loop.pieces.length
  return {
    head: head(
      sheet,
      `${loop.ring ? loop.name : `Inside ${loop.name}`}${count > 1 ? `, and ${count - 1} like it` : ''}`,
    ),
    strips: [
      { high: loopHigh + 2, what: { kind: 'corners', corners: builtCorners(loop, plan.parts) } },
      text(
        sheet,
        loop.ring ? 'Outside, at the points.' : 'In the clear, from inside corner to inside corner.',
      ),
      ...tapes.map(({ label, expected, kind }) =>
        measure(sheet, label, say(expected, shop.reading), kind === 'flats' ? 2 : 1),
      ),
      ...(may.length > 0 ? [text(sheet, `ISO 13920: ${may.join(', ')}.`)] : []),
      ...(loop.ring
        ? [
            text(
              sheet,
              `Height of each corner over the table: all alike.${flat ? ` ISO 13920: ${sayMay(flat, shop.reading)}.` : ''}`,
            ),
            ...Array.from({ length: Math.ceil(n / 3) }, (_, row) => {
              const from = 3 * row + 1
              const to = Math.min(n, from + 2)
              return measure(
                sheet,
                `Corner${to > from ? 's' : ''} ${from}${to > from ? ` to ${to}` : ''}`,
                '',
                to - from + 1,
              )
            }),
          ]
        : []),
    ],
  }
}

function standBlock(sheet: Sheet, loops: readonly Loop[]): FitBlock[] {
  const { plan, shop } = sheet
  const strips = [
    ...centerLines(plan, loops).flatMap(({ name, center: { from, distance } }) =>
      ([0, 1] as const).map((side) =>
        measure(
          sheet,
          `${name} from ${sayOutermost(from[side])}`,
          say(distance[side], shop.reading),
          straight(from[side]) ? 2 : 1,
        ),
      ),
    ),
    ...standLines(plan, shop.reading).map(({ title, along, across }) =>
      text(sheet, `${title}: along ${along}; across ${across}.`),
    ),
  ]
  return strips.length === 0 ? [] : [{ head: head(sheet, 'Where one stands on another'), strips }]
}

function tableBlock(sheet: Sheet, load: Load, loops: readonly Loop[]): FitBlock[] {
  const { plan, shop } = sheet
  const { frame, parts } = plan
  const { reading } = shop
  const lying = usualLying(frame, load)
  const up = lyingsOf(frame, load).get(lying)!
  const under = blockLines(frame, blocksUnder(frame, load, up), reading)
  const clear = usualClear(shop)
  const layout = layoutOf(frame, load, up, loops, parts, clear)
  const plate = plateText(frame, shop.table ? needPlate(frame, load, up, shop.table) : [])
  const lines = layoutLines(frame, layout, reading)
  const flat = load.id !== 'all' && lines.length > 0
  const laid = () =>
    load.ring
      ? [
          ...pairs(layout.corners.map((corner, at) => `${at + 1}:  ${sayAt(corner, reading)}`)),
          ...lines.map(({ name, blocks }) => text(sheet, `Blocks, ${name}: ${blocks.join(' and ')}`)),
        ]
      : lines.map(({ name, from, to, blocks }) =>
          text(sheet, `${name}: line ${from} to ${to}; blocks ${blocks.join(' and ')}`),
        )
  const strips = [
    ...(flat
      ? [
          { high: tableHigh + 2, what: { kind: 'table', layout, clear } as const },
          text(sheet, `x from the left edge, y from the front edge, ${unitOf(reading)}:`),
          ...laid(),
        ]
      : []),
    ...under.map(({ title, text: words }) => text(sheet, `Under ${title}: ${words}.`)),
    ...(plate ? [text(sheet, plate)] : []),
  ]
  return strips.length === 0
    ? []
    : [{ head: head(sheet, `On the table: ${load.name.toLowerCase()}, ${lying}`), strips }]
}

function levelBlock(sheet: Sheet): FitBlock[] {
  const { leveler, frame } = sheet.plan
  if (!leveler) return []
  const { reading } = sheet.shop
  const plate = footPlate(frame)
  const reach = `${say(leveler.least, reading)} to ${say(leveler.most, reading)}`
  return [
    {
      head: head(sheet, plate ? `Does the ${plate} lie flat?` : 'Do the feet stand level?'),
      strips: [
        text(
          sheet,
          `On the flat table, the gap under ${plate ? `the ${plate} at each hole` : 'each foot'}. The leveling feet reach ${reach}, planned ${say(leveler.setting, reading)}.`,
        ),
        ...feetOf(frame).map(({ number, lies }) =>
          measure(sheet, `${plate ? 'Hole' : 'Foot'} ${number}, ${lies}`, ''),
        ),
      ],
    },
  ]
}

export function fitBlocks(plan: Plan, shop: Shop, page: PageSize): readonly FitBlock[] {
  const sheet: Sheet = { plan, shop, wide: bodyWide(page) }
  const loops = loopsOf(plan.frame)
  const blocks = [
    ...alike(loops, sheet).map(({ loop, count }) => loopBlock(sheet, loop, count)),
    ...standBlock(sheet, loops),
    ...loadsOf(plan.frame).flatMap((load) => tableBlock(sheet, load, loops)),
    ...levelBlock(sheet),
  ]
  const [first, ...rest] = blocks
  if (!first || plan.quantity === 1) return blocks
  return [{ ...first, strips: [text(sheet, `Copy ____ of ${plan.quantity}`), ...first.strips] }, ...rest]
}
