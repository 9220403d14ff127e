import { type NestSection, type NestStick, piecesIn } from '../core/nest.ts'
import type { BenchCut, Plan } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import { sectionName } from '../core/section/name.ts'
import type { Shop } from '../core/shop.ts'
import type { Mm } from '../core/units.ts'
import { dropMarks } from './drop-marks.ts'
import type { Block } from './flow.ts'
import { bodyWide, lineHigh, linesOf, markFont, type PageSize } from './size.ts'
import { stickHigh } from './stick-picture.tsx'

// Tags to tie to steel: which stick it is and what comes out of it in which order; what is left and where it came from.

export interface StickTag {
  readonly stick: NestStick
  readonly section: NestSection
  readonly title: string
  readonly pieces: string
  readonly rest: string
}

export interface DropTag {
  /** What is painted on it. */
  readonly id: string
  readonly length: string
  readonly section: string
  readonly from: string
}

export type TagStrip =
  | { readonly kind: 'stick'; readonly tag: StickTag }
  | { readonly kind: 'drops'; readonly tags: readonly DropTag[] }

/** Padding of a tag and the gap to the next one. */
const round: Mm = 10

/** What each stick leaves, by its id: a drop with the mark to paint, or nothing where it is scrap. */
function dropIds(plan: Plan, cuts: readonly BenchCut[]): ReadonlyMap<string, string> {
  const marks = dropMarks(plan)
  return new Map(
    cuts.flatMap(({ loaded, stick, unload }) =>
      loaded === stick && unload !== undefined && unload !== 'scrap'
        ? [[stick, marks.get(stick) ?? unload] as const]
        : [],
    ),
  )
}

/** Names in order, runs of one mark closed up: `A1 to A6, B1`. */
export function inOrder(stick: NestStick): string {
  const runs: { mark: string; first: string; last: string; at: number }[] = []
  for (const { piece, mark } of stick.pieces.flatMap(piecesIn)) {
    const number = Number(piece.slice(mark.length))
    const run = runs.at(-1)
    if (run && run.mark === mark && run.at + 1 === number) Object.assign(run, { last: piece, at: number })
    else runs.push({ mark, first: piece, last: piece, at: number })
  }
  return runs.map(({ first, last }) => (first === last ? first : `${first} to ${last}`)).join(', ')
}

export function tagBlocks(
  plan: Plan,
  cuts: readonly BenchCut[],
  shop: Shop,
  page: PageSize,
): Block<string, TagStrip>[] {
  const ids = dropIds(plan, cuts)
  const wide = bodyWide(page)
  const [stickWord, dropWord] = shop.says === 'stick and drop' ? ['Sticks', 'drop'] : ['Lengths', 'offcut']
  const sections = plan.nest?.sections ?? []
  const sticks = sections.flatMap((section) =>
    section.sticks.map((stick): StickTag => {
      const id = ids.get(stick.id)
      const from = stick.from === 'rack' ? ', from the rack' : ''
      return {
        stick,
        section,
        title: `${sectionName(section.section, shop.reading)}, ${say(stick.length, shop.reading)}${from}`,
        pieces: `In order: ${inOrder(stick)}`,
        rest: id ? `Then ${dropWord} ${id}: ${say(stick.drop, shop.reading)}` : 'What is left is scrap.',
      }
    }),
  )
  const drops = sections.flatMap((section) =>
    section.sticks.flatMap((stick): DropTag[] => {
      const id = ids.get(stick.id)
      return id === undefined
        ? []
        : [
            {
              id,
              length: say(stick.drop, shop.reading),
              section: sectionName(section.section, shop.reading),
              from: `${plan.name}, ${stick.id}`,
            },
          ]
    }),
  )
  const inner = wide - round
  const head = (what: string) => ({ high: lineHigh + 4, what })
  const high = ({ title, pieces, rest }: StickTag) =>
    markFont * 1.2 +
    [title, pieces, rest].reduce((sum, text) => sum + linesOf(text, inner) * lineHigh, 0) +
    stickHigh +
    round +
    2
  const half = wide / 2 - 2 - round
  const dropHigh = (tags: readonly DropTag[]) =>
    Math.max(
      ...tags.map(
        ({ section, from }) =>
          markFont * 2.4 + (linesOf(section, half) + linesOf(from, half)) * lineHigh + round + 4,
      ),
    )
  const pairs = Array.from({ length: Math.ceil(drops.length / 2) }, (_, at) =>
    drops.slice(2 * at, 2 * at + 2),
  )
  return [
    {
      head: head(stickWord),
      strips: sticks.map((tag) => ({ high: high(tag), what: { kind: 'stick', tag } as const })),
    },
    ...(pairs.length > 0
      ? [
          {
            head: head(dropWord === 'drop' ? 'Drops to keep' : 'Offcuts to keep'),
            strips: pairs.map((tags) => ({ high: dropHigh(tags), what: { kind: 'drops', tags } as const })),
          },
        ]
      : []),
  ]
}
