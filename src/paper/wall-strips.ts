import type { NestSection, NestStick } from '../core/nest.ts'
import type { BenchCut, Part, Plan } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import type { Reading, Shop } from '../core/shop.ts'
import type { Mm } from '../core/units.ts'
import { dropMarks } from './drop-marks.ts'
import type { Strip } from './flow.ts'
import { pieceHigh } from './piece-picture.tsx'
import { bodyWide, lineHigh, linesOf, type PageSize, textFont } from './size.ts'
import { stickHigh } from './stick-picture.tsx'
import { bothEnds } from './wall-spread.ts'

// What stands under a set-up on the wall cut sheet: what to load, a tick box for every cut, what becomes of the rest.

export type WallStrip =
  | {
      readonly kind: 'load'
      readonly text: string
      /** Drawn with its pieces when it is taken for the first time. */
      readonly stick?: NestStick
      readonly section?: NestSection
    }
  | { readonly kind: 'piece'; readonly part: Part }
  /** What does not stand beside the picture. */
  | { readonly kind: 'words'; readonly text: string }
  | {
      readonly kind: 'ticks'
      readonly from: string
      readonly mark: string
      /** Width of a box, mm. */
      readonly wide: Mm
      readonly numbers: readonly string[]
    }

/** A tick box with the number of its piece in it, and the gap beside it. */
export const boxWide = (labels: number): Mm => Math.max(13, labels * textFont * 0.62 + 3) + 2
export const boxHigh: Mm = 11
/** Room for the mark of a row, and for the stick that it is from. */
export const labelWide = (from: string): Mm => (from ? 58 : 24)

/** `either end to the stop` → `Either end to the stop.` */
export const sentence = (text: string) =>
  `${text.charAt(0).toUpperCase()}${text.slice(1).replace(/[.]$/, '')}.`

type Strips = Strip<WallStrip>[]

/** What the set-ups so far have done to the sticks. */
interface Saws {
  /** What lies on the saw, by names. */
  loaded: string
  /** Not whole any more when they come back. */
  readonly begun: Set<string>
}

/** What is said of the steel of a plan. */
interface Steel {
  readonly sections: ReadonlyMap<string, { readonly stick: NestStick; readonly section: NestSection }>
  readonly parts: ReadonlyMap<string, Part>
  /** What is painted on a drop, by stick. */
  readonly marks: ReadonlyMap<string, string>
  readonly waiting: ReadonlyMap<string, readonly string[]>
  readonly reading: Reading
}

/**
 * The strips of one set-up after the other, to be asked for in the order of work: a stick stays on the saw until it is
 * unloaded.
 */
export function stripsThrough(
  plan: Plan,
  parts: ReadonlyMap<string, Part>,
  { reading }: Shop,
  page: PageSize,
): (group: readonly BenchCut[]) => Strips {
  const sections = new Map(
    (plan.nest?.sections ?? []).flatMap((section) =>
      section.sticks.map((stick) => [stick.id, { stick, section }] as const),
    ),
  )
  const steel: Steel = { sections, parts, marks: dropMarks(plan), waiting: waitingIn(plan), reading }
  const saws: Saws = { loaded: '', begun: new Set() }
  return (group) => stripsOf(group, steel, saws, bodyWide(page))
}

function stripsOf(group: readonly BenchCut[], steel: Steel, saws: Saws, wide: Mm): Strips {
  const end = (cut: BenchCut) => (bothEnds(group) ? (cut.product.kind === 'half' ? 'a' : 'b') : '')
  const labelOf = (cut: BenchCut) =>
    (cut.product.makes?.[0] ?? cut.product.id).slice((cut.product.mark ?? '').length) + end(cut)
  const strokes = strokesIn(group).map((cuts) => ({ cuts, label: cuts.map(labelOf).join(', ') }))
  const boxes = boxWide(Math.max(...strokes.map(({ label }) => label.length)))
  const perRow = (from: string) => Math.max(1, Math.floor((wide - labelWide(from)) / boxes))
  const severalMarks = new Set(group.map(({ product }) => product.mark)).size > 1
  const pictured = new Set<string>()
  const strips: Strips = []
  let row: { mark: string; from: string; numbers: string[] } | undefined
  const put = (more: Strips) => {
    strips.push(...more)
    if (more.length > 0) row = undefined
  }
  let stays = saws.loaded
  for (const { cuts, label } of strokes) {
    const cut = cuts[0]!
    const names = namesIn(cuts)
    const whole = cut.loaded === cut.stick
    put(notesOf(beforeStroke(cuts, steel, saws, stays), wide))
    if (whole) {
      saws.loaded = names
      for (const { stick } of cuts) saws.begun.add(stick)
    }
    stays = ''
    const mark = cut.product.mark ?? ''
    const part = steel.parts.get(mark)
    if (severalMarks && part && !pictured.has(mark)) {
      put([{ high: pieceHigh, what: { kind: 'piece', part } }])
      pictured.add(mark)
    }
    const from = whole ? names : ''
    if (!row || row.mark !== mark || row.from !== from || row.numbers.length >= perRow(from)) {
      row = { from, mark, numbers: [] }
      strips.push({ high: boxHigh + 2, what: { kind: 'ticks', wide: boxes - 2, ...row } })
    }
    row.numbers.push(label)
    if (!whole || cut.unload === undefined) continue
    put(notesOf(afterStroke(cuts, steel), wide))
    saws.loaded = ''
  }
  return strips
}

const namesIn = (cuts: readonly BenchCut[]): string => cuts.map(({ stick }) => stick).join(', ')

interface Note {
  readonly text: string
  /** Drawn with it. */
  readonly stick?: NestStick
  readonly section?: NestSection
}

const notesOf = (notes: readonly Note[], wide: Mm): Strips =>
  notes.map((note) => ({
    high: linesOf(note.text, wide, 'bold') * lineHigh + (note.stick ? stickHigh + 2 : 0),
    what: { kind: 'load', ...note },
  }))

/** What is loaded for the cuts of a stroke, and what is done before it; `stays` is what the set-up before left on the saw. */
function beforeStroke(cuts: readonly BenchCut[], steel: Steel, saws: Saws, stays: string): Note[] {
  const [cut] = cuts as readonly [BenchCut]
  const names = namesIn(cuts)
  const several = cuts.length > 1
  const notes: Note[] = []
  const note = (text: string, drawn?: Omit<Note, 'text'>) => notes.push({ text, ...drawn })
  if (cut.loaded === cut.stick && stays === names) note(`${names} ${several ? 'stay' : 'stays'} on the saw.`)
  else if (cut.loaded === cut.stick && saws.loaded !== names) {
    const clean = cut.trimFirst ? `; clean up ${say(cut.trimFirst, steel.reading)}` : ''
    if (several) note(`Side by side, ends flush${clean}:`)
    for (const { stick: id } of cuts) {
      const known = steel.sections.get(id)
      const rack = known?.stick.from === 'rack' ? ', from the rack' : ''
      const fresh = !saws.begun.has(id)
      const long = known ? `, ${say(known.stick.length, steel.reading)}` : ''
      const which = fresh ? `${id}${long}${rack}` : `what is left of ${id}`
      note(`Load ${which}${several ? '' : clean}.`, fresh ? known : undefined)
    }
  }
  if (cut.trim) {
    const { miter, lean, bevel } = cut.trim
    note(sentence(`clean up at ${miter.text}${bevel ? `, bevel ${bevel.text}` : ''}: ${lean}`))
  }
  if (cut.splits) note('The same cut makes this one too: only tick it.')
  return notes
}

/** What becomes of the sticks that a stroke unloads. */
function afterStroke(cuts: readonly BenchCut[], { sections, marks, waiting, reading }: Steel): Note[] {
  const names = namesIn(cuts)
  if (cuts[0]!.unload === 'scrap' || !sections.has(cuts[0]!.stick))
    return [{ text: `What is left of ${names} is scrap.` }]
  return cuts.map(({ stick: id }) => {
    const pieces = waiting.get(id)
    const text = pieces
      ? `What is left of ${id} stays for ${pieces.join(', ')}, by hand.`
      : `${cuts.length > 1 ? `${id}: keep` : 'Keep'} ${say(sections.get(id)!.stick.drop, reading)}; paint ${marks.get(id) ?? id} on it.`
    return { text }
  })
}

/** Cuts by the stroke that makes them, in the order of work. */
function strokesIn(group: readonly BenchCut[]): readonly (readonly BenchCut[])[] {
  const strokes: BenchCut[][] = []
  for (const cut of group) {
    const last = strokes.at(-1)
    if (last && cut.stroke?.includes(last[0]!.product.id)) last.push(cut)
    else strokes.push([cut])
  }
  return strokes
}

/** Pieces left to the hand that stay in the bar which is left of a stick, by the stick. */
function waitingIn({ run }: Plan): ReadonlyMap<string, readonly string[]> {
  const left = new Set((run?.left ?? []).map(({ piece }) => piece))
  const loaded = new Set((run?.programs ?? []).map(({ load }) => load))
  return new Map(
    (run?.products ?? []).flatMap(({ id, kind, makes = [] }) => {
      const own = makes.filter((piece) => left.has(piece))
      return kind === 'rest' && !loaded.has(id) && own.length > 0 ? [[id.split('.')[0]!, own] as const] : []
    }),
  )
}
