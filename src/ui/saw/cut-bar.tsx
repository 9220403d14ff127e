import type { ReactNode } from 'react'
import type { BenchCut, HandCut, Run } from '../../core/plan-shapes.ts'
import { isOpen } from '../../core/saw/bench.ts'
import type { Shop } from '../../core/shop.ts'
import type { CheckOff } from './flash.tsx'
import { calledTogether, sayAngles } from './say.ts'
import type { Now, Station } from './work.ts'

interface BarProps {
  readonly now: Now
  /** The set-up that is shown. */
  readonly here: Station | undefined
  readonly cuts: readonly BenchCut[]
  readonly products: Run['products']
  readonly shop: Shop
  readonly checkOff: CheckOff
  /** Something of this job can be taken back. */
  readonly undoable: boolean
  /** The cuts that are wanted now. */
  readonly stroke: readonly [BenchCut, ...BenchCut[]] | undefined
  readonly byHand: readonly HandCut[]
  readonly onCut: () => void
  readonly onMade: (piece: string) => void
  readonly onUndo: () => void
  readonly onGo: (setUp: string) => void
  /** The station that comes after the saw. */
  readonly next: { readonly name: string; go(): void }
  /** What the plan no longer gives, in a line. */
  readonly lacking: ReactNode
  /** The miscut is being told: nothing is cut meanwhile. */
  readonly telling: boolean
  /** The plan of what is left is looked at: the way back to the cuts. */
  readonly onBack: (() => void) | undefined
  readonly onMiscut: () => void
  /** Leaves this piece for later; absent where there is none to leave. */
  readonly onLeave: (() => void) | undefined
}

/** Undo, and the one thing to do now at the thumb side of the shop's hand. */
export function CutBar(props: BarProps) {
  const { now, shop, here, cuts } = props
  const all = [...cuts, ...props.byHand]
  const done = all.filter((cut) => cut.done !== undefined).length
  const main = mainOf(props)
  return (
    <div className={`cut-bar hand-${shop.hand}${props.lacking ? ' lacks' : ''}`}>
      {props.lacking}
      <div className="bar-keys">
        <button type="button" className="undo" onClick={props.onUndo} disabled={!props.undoable}>
          <UndoMark />
          Undo
        </button>
        <button type="button" aria-pressed={props.telling} onClick={props.onMiscut}>
          Miscut
        </button>
        <button type="button" disabled={!props.onLeave} onClick={props.onLeave}>
          Leave it
        </button>
      </div>
      <div className="bar-words">
        <p role="status">
          {here && (
            <>
              <b>{here.cut}</b> of {here.cuts.length} in this set-up,{' '}
            </>
          )}
          <b>{done}</b> of {all.filter((cut) => cut.lost === undefined).length} in all
        </p>
        <BarCounts stroke={props.stroke} cuts={cuts} />
        {now.kind === 'cut' && now.aside && <p>Out of the order of work, as you chose.</p>}
      </div>
      {/* One element for all its states, so that a keyboard stays on it from piece to piece. */}
      <button
        type="button"
        className={`main-button ${main.look}`}
        aria-busy={props.checkOff.busy}
        aria-disabled={main.press === undefined}
        onKeyDown={(event) => {
          // A key held down repeats itself: one press is one cut.
          if (event.repeat && (event.key === 'Enter' || event.key === ' ')) event.preventDefault()
        }}
        onClick={main.press}
      >
        {main.words}
      </button>
    </div>
  )
}

/** How far the stick in hand and the copy are: said where there is more than one of them. */
function BarCounts({ stroke, cuts }: Pick<BarProps, 'stroke' | 'cuts'>) {
  if (!stroke) return null
  const [cut] = stroke
  const says = (own: readonly BenchCut[], where: string) =>
    `${own.filter((one) => one.done !== undefined).length} of ${own.length} ${where}`
  const sticks = [...new Set(stroke.map(({ stick }) => stick))]
  const onStick = cuts.filter((one) => sticks.includes(one.loaded))
  const { copy } = cut.product
  const copies = new Set(cuts.flatMap(({ product }) => product.copy ?? []))
  const ofCopy = cuts.filter(({ product }) => product.copy === copy && product.kind === 'piece')
  return (
    <p className="bar-more">
      {says(onStick, `from ${sticks.join(', ')}`)}
      {copy !== undefined && copies.size > 1 && `, ${says(ofCopy, `pieces of copy ${copy}`)}`}
    </p>
  )
}

interface MainKey {
  readonly look: string
  readonly words: ReactNode
  readonly press?: () => void
}

/** The words on the main button always say which piece, or where to go. */
function mainOf({
  now,
  products,
  shop,
  checkOff,
  onCut,
  onGo,
  next,
  stroke,
  byHand,
  onMade,
  telling,
  onMiscut,
  onBack,
}: BarProps): MainKey {
  if (onBack) return { look: 'move', words: twoLines('Back', 'to the set-up'), press: onBack }
  if (telling) return { look: 'move', words: twoLines('Back', 'nothing is written yet'), press: onMiscut }
  if (checkOff.just)
    return {
      look: 'was-cut',
      words: (
        <>
          <DoneMark /> {checkOff.just.name} is cut
        </>
      ),
    }
  const hand = byHand.find(isOpen)
  if (now.kind === 'all cut' && hand)
    return {
      look: 'go',
      words: twoLines(`${hand.product.id} is made`, 'by hand'),
      press: () => onMade(hand.product.id),
    }
  if (now.kind === 'all cut')
    return { look: 'go move', words: twoLines('All cut', `go to ${next.name}`), press: next.go }
  if (now.kind === 'cut') {
    const called = calledTogether(stroke ?? [now.cut], products)
    return { look: 'go', words: twoLines(`Cut ${called.piece}`, called.stage), press: onCut }
  }
  const { setUp, number } = now.to
  const saw = shop.saws.find((one) => one.id === setUp.saw)
  const { stop } = setUp.printed
  return {
    look: 'go move',
    words: twoLines(`Go to set-up ${number}`, `${sayAngles(setUp, saw)}, stop ${stop.text} ${stop.unit}`),
    press: () => onGo(setUp.id),
  }
}

const twoLines = (big: string, small: string) => (
  <span className="cut-words">
    <span>{big}</span>
    {small && <span className="cut-stage"> {small}</span>}
  </span>
)

const UndoMark = () => (
  <svg viewBox="0 0 24 24" width="26" height="26" aria-hidden="true" className="icon">
    <path d="M9 4 4 9l5 5M4 9h10a6 6 0 0 1 0 12H9" />
  </svg>
)

export const DoneMark = () => (
  <svg viewBox="0 0 24 24" width="30" height="30" aria-hidden="true" className="icon">
    <path d="M3 13l6 6L21 5" />
  </svg>
)
