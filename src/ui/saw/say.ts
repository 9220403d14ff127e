export { isShort, shortPiece } from '../../core/saw/caution.ts'

import type { BenchCut, Product, Run, SetUp } from '../../core/plan-shapes.ts'
import { turnWords } from '../../core/saw/words.ts'
import { isRound } from '../../core/section/section.ts'
import type { Saw } from '../../core/shop.ts'
import { capital } from '../words.ts'

/** What a cut is called: the piece, and which stage of it where it takes more than one cut. */
export interface Called {
  /** `A5`. */
  readonly piece: string
  /** `blank`, `first end`, `second end`, `mitered end`; empty where one cut makes the piece. */
  readonly stage: string
}

const pieceOf = (product: Product): string =>
  product.kind === 'piece' || !product.makes?.length ? product.id : product.makes.join(' + ')

export function calledOf(product: Product, products: Run['products']): Called {
  const piece = pieceOf(product)
  if (product.kind === 'blank') return { piece, stage: 'blank' }
  if (product.kind === 'half') return { piece, stage: 'first end' }
  const from = products.find((one) => one.id === product.from)
  if (from?.kind === 'half') return { piece, stage: 'second end' }
  return { piece, stage: from?.kind === 'blank' ? 'mitered end' : '' }
}

/** Several pieces in few signs: `A5–A8` where their numbers follow each other, else `A1, A3`. */
export function sayTogether(pieces: readonly string[]): string {
  const read = pieces.map((piece) => /^(.*?)(\d+)$/.exec(piece))
  const [first] = read
  const inRow =
    pieces.length > 2 &&
    read.every((one, at) => one && first && one[1] === first[1] && Number(one[2]) === Number(first[2]) + at)
  return inRow ? `${pieces[0]}–${pieces.at(-1)}` : pieces.join(', ')
}

/** What several cuts of one stroke are called. */
export function calledTogether(cuts: readonly BenchCut[], products: Run['products']): Called {
  const all = cuts.map(({ product }) => calledOf(product, products))
  return { piece: sayTogether(all.map(({ piece }) => piece)), stage: all[0]?.stage ?? '' }
}

/** `A5 first end`, as it stands on the button. */
export const onKey = ({ piece, stage }: Called): string => (stage ? `${piece} ${stage}` : piece)

/** `A5, first end`. */
export const sayCalled = ({ piece, stage }: Called): string => (stage ? `${piece}, ${stage}` : piece)

/** The workpiece in hand, where it is no whole stick: `blank A5`, `A5, first end cut`. */
export function inHand(cut: BenchCut, products: Run['products']): string {
  const product = products.find((one) => one.id === cut.loaded)
  if (!product) return cut.loaded
  if (product.kind === 'half') return `${pieceOf(product)}, first end cut`
  return product.kind === 'piece' ? pieceOf(product) : `${product.kind} ${pieceOf(product)}`
}

/** `square`, `miter 30°`, with the bevel, the turn in the cradle or the wedge where there is one. */
export function sayAngles(setUp: SetUp, saw: Saw | undefined): string {
  const square = setUp.swing === 0
  const reads = saw?.readsAtSquare === 90 ? `scale at ${setUp.printed.miter.text}` : setUp.printed.miter.text
  return [
    square ? 'square' : `miter ${reads}`,
    ...(setUp.tilt === 0 ? [] : [`bevel ${degrees(setUp.tilt)}`]),
    ...(setUp.roll === 0 ? [] : [`turned ${degrees(setUp.roll)}`]),
    ...(setUp.ramp === 0 ? [] : [`wedge ${degrees(setUp.ramp)}`]),
  ].join(', ')
}

export const degrees = (angle: number): string => `${+Math.abs(angle).toFixed(1)}°`

/** What the person does with the steel around one cut, in order. */
export interface BenchStep {
  readonly kind: 'load' | 'clean-up' | 'turn' | 'tip' | 'push' | 'after' | 'unload'
  readonly text: string
}

export interface Lengths {
  /** Length with its unit, in the shop's reading. */
  readonly say: (mm: number) => string
  readonly stick: string
  readonly sticks: string
  readonly drop: string
}

/** Before and after the cut, and those of its stroke. `next` is the cut that follows in the order of work. */
export function stepsOf(
  [cut, ...beside]: readonly [BenchCut, ...BenchCut[]],
  products: Run['products'],
  lengths: Lengths,
  next?: BenchCut,
): { readonly before: readonly BenchStep[]; readonly after: readonly BenchStep[] } {
  const all = [cut, ...beside]
  if (cut.splits) return { before: [], after: afterOf(all, products, lengths, next) }
  const whole = cut.loaded === cut.stick
  const before: BenchStep[] = []
  if (cut.loadFirst)
    before.push({
      kind: 'load',
      text:
        beside.length > 0
          ? `Load ${lengths.sticks} ${all.map(({ stick }) => stick).join(', ')} side by side, their ends flush.`
          : whole
            ? `Load ${lengths.stick} ${cut.stick}.`
            : `Take ${inHand(cut, products)}.`,
    })
  if (cut.trim)
    for (const turn of cut.trim.turns) before.push({ kind: 'turn', text: `${capital(turnWords[turn])}.` })
  if (cut.trimFirst !== undefined) before.push({ kind: 'clean-up', text: cleanUpWords(cut, lengths) })
  for (const turn of cut.turns) before.push({ kind: 'turn', text: `${capital(turnWords[turn])}.` })
  if (cut.product.kind === 'half' && isRound(cut.setUp.section))
    before.push({ kind: 'tip', text: 'Scribe a line along its top, end to end: the second end goes by it.' })
  const { roll, ramp } = cut.setUp.printed
  for (const words of [roll, ramp]) if (words) before.push({ kind: 'tip', text: `${capital(words)}.` })
  before.push({
    kind: 'push',
    text:
      beside.length > 0
        ? 'Push all of them to the stop, the first against the fence, and clamp: none may move.'
        : 'Push it to the stop, against the fence, and clamp.',
  })
  return { before, after: afterOf(all, products, lengths, next) }
}

/** The clean-up cut, with how the head stands for it where that is not square. */
function cleanUpWords({ trim, trimFirst }: BenchCut, { say }: Lengths): string {
  const off = say(trimFirst!)
  // A cut end asks for no more than its wedge: the blade runs out of the steel at the edge that loses least.
  const take =
    trimFirst === 0
      ? 'Take only the wedge: nothing off the edge that loses least'
      : `Take ${off} off the edge that loses least, kerf included`
  if (!trim) return `Clean-up cut first: take ${off} off the mill end, kerf included.`
  const { miter, lean, bevel, bevelLean } = trim
  const head = [`miter ${miter.text}: ${lean}`, ...(bevel ? [`bevel ${bevel.text}: ${bevelLean ?? ''}`] : [])]
  return `Clean-up cut first, at ${head.join('; ')}. ${take}.`
}

function afterOf(
  all: readonly BenchCut[],
  products: Run['products'],
  lengths: Lengths,
  next: BenchCut | undefined,
): readonly BenchStep[] {
  const cut = all[0]!
  const called = calledTogether(all, products)
  const it = all.length > 1 ? 'them' : 'it'
  const stays = next?.loaded === cut.product.id
  const after: BenchStep[] = []
  if (stays) after.push({ kind: 'after', text: 'It stays in hand: the next cut is on it.' })
  else if (called.stage === 'first end')
    after.push({
      kind: 'after',
      text: 'Lay it with the others: its second end is cut in a set-up of its own.',
    })
  else
    after.push({
      kind: 'after',
      text: `Mark ${it} ${called.stage === 'blank' ? 'blank ' : ''}${called.piece} and lay ${it} aside.`,
    })
  if (cut.unload === undefined) return after
  const sticks = all.map(({ stick }) => stick).join(', ')
  if (cut.unload === 'scrap') after.push({ kind: 'unload', text: `What is left of ${sticks} is scrap.` })
  else if (cut.unload !== cut.product.id)
    after.push({ kind: 'unload', text: `Unload: a ${lengths.drop} is left of ${sticks}.` })
  return after
}

export const shortEnd =
  'The end that comes off is short: let it fall free, nothing may wedge it against the blade.'

export const sawCaution =
  'Guard in place, eyes and ears covered, steel clamped, no gloves near the turning blade. Wait until the blade stands still. The machine’s own manual comes first.'
