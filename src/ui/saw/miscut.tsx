import { useState } from 'react'
import { fitsIn, steelAgain } from '../../app/again.ts'
import { shortSide } from '../../app/recut.ts'
import type { JobView, Wrong } from '../../app/state.ts'
import { rackMarks } from '../../core/facts/rack-mark.ts'
import type { Progress } from '../../core/facts.ts'
import type { Nest } from '../../core/nest.ts'
import type { BenchCut, HandCut, Part, Product } from '../../core/plan-shapes.ts'
import { readingStep, say } from '../../core/reading/show.ts'
import { isOpen } from '../../core/saw/bench.ts'
import type { Section } from '../../core/section/section.ts'
import type { Shop } from '../../core/shop.ts'
import { wholeSlack } from '../../core/tolerance.ts'
import { tanDeg } from '../../core/units.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { Choice } from '../fields/choice.tsx'
import { MmField } from '../fields/length-field.tsx'
import { saysOf } from '../words.ts'
import { calledOf, sayCalled } from './say.ts'

const whys = ['too short', 'wrong angle', 'bad end'] as const
type Why = (typeof whys)[number]

/** A piece that may have gone wrong, at the saw or by hand. */
interface Suspect {
  readonly cut: BenchCut | HandCut
  readonly product: Product
  readonly section: Section
  /** What it was to be, mm, from tip to tip. */
  readonly length: number
  /** What can be cut from it where it is whole but for one bad end, mm: its short side. */
  readonly short: number
}

const shortOf = ({ kind, key }: Product): number | undefined =>
  kind === 'piece' && key ? shortSide(key) : undefined

function atSaw(cut: BenchCut): Suspect {
  const { product, setUp } = cut
  const length = product.length ?? setUp.stop
  const leans = product.kind === 'half' ? setUp.section.width * tanDeg(Math.abs(setUp.swing)) : 0
  const short = shortOf(product) ?? Math.max(0, length - leans)
  return { cut, product, section: setUp.section, length, short }
}

/** A piece made by hand, of the steel that its stick is. */
function byHand(cut: HandCut, nest: Nest, parts: readonly Part[]): readonly Suspect[] {
  const { product, stick } = cut
  const at = nest.sections.find(({ sticks }) => sticks.some(({ id }) => id === stick))
  const part = parts.find(({ key }) => key === product.key)
  if (!at || !part) return []
  const length = part.printed.longPoint.mm
  return [{ cut, product, section: at.section, length, short: shortOf(product) ?? length }]
}

/**
 * What may have gone wrong: the cut at hand, then what was checked off, the last first, then what is still to be made by
 * hand. That is at hand where the saw is done.
 */
function suspects(
  { cuts, byHand: hands, plan }: JobView,
  nest: Nest,
  now: readonly BenchCut[],
  progress: Progress,
): readonly Suspect[] {
  const parts = plan?.cutParts ?? plan?.parts ?? []
  const whenMade = new Map(progress.made.map(({ id }, at) => [id, at]))
  const there = new Set(progress.made.filter(({ used }) => !used).map(({ id }) => id))
  const made = hands.flatMap((one) => byHand(one, nest, parts))
  const open = made.filter(({ cut }) => isOpen(cut))
  const done = [...cuts.map(atSaw), ...made]
    .filter(({ cut }) => cut.done !== undefined && there.has(cut.done))
    .sort((a, b) => whenMade.get(b.cut.done!)! - whenMade.get(a.cut.done!)!)
  return cuts.some(isOpen) ? [...now.map(atSaw), ...done, ...open] : [...open, ...done]
}

/** A cut went wrong: which, how, and what is left of it. What that means is said at once, and the rest is planned. */
export function Miscut(props: {
  readonly view: JobView
  readonly nest: Nest
  /** The cuts that are wanted now, more than one where one stroke makes them. */
  readonly now: readonly BenchCut[]
  /** The piece that is meant, where one was named. */
  readonly of: string | undefined
  readonly onEnd: () => void
}) {
  const { view, nest, now } = props
  const actions = useActions()
  const shop = useShop()
  const progress = useApp((state) => state.progress)
  const products = view.plan?.run?.products ?? []
  const found = suspects(view, nest, now, progress)
  const meant = found.filter(({ product }) => product.id === props.of)
  const all = [...meant, ...found.filter((one) => !meant.includes(one))]
  const [which, setWhich] = useState(all[0]?.product.id)
  const [why, setWhy] = useState<Why>('too short')
  const [typed, setTyped] = useState<{ readonly mm: number | undefined } | null>(null)
  const [busy, setBusy] = useState(false)
  const one = all.find(({ product }) => product.id === which) ?? all[0]
  if (!one) return <p className="elsewhere">Nothing is cut yet that could have gone wrong.</p>

  const { cut, product, section } = one
  const meantBy = (id: string) => {
    setWhich(id)
    setTyped(null)
  }
  const isByHand = ({ cut }: Suspect) => !('setUp' in cut)
  const name = (one: Suspect) => (isByHand(one) ? one.product.id : sayCalled(calledOf(one.product, products)))
  const place = (one: Suspect) =>
    isByHand(one) ? ', by hand' : one.cut.done === undefined ? ', on the saw' : ''
  const step = readingStep(shop.reading)
  const derived = why === 'too short' ? undefined : Math.floor(one.short / step + wholeSlack) * step
  const left = typed ? typed.mm : derived
  const mitered = product.kind === 'half' || product.kind === 'piece'
  const bad = why !== 'too short' || (mitered && one.short < one.length)
  const ends = [bad ? 'mill' : 'cut', mitered && bad ? 'mill' : 'cut'] as const
  const end = async (length: number) => {
    if (busy) return
    setBusy(true)
    const of: Wrong['of'] = cut.done === undefined ? { cut } : { piece: cut.done }
    const written = await actions.miscut(view.id, { of, why, left: length, ends })
    setBusy(false)
    if (!written) return
    props.onEnd()
    void actions.planRest(view.id)
  }
  const [first, ...others] = all
  const shownBeside = Math.max(3, now.length)
  return (
    <section className="miscut-panel" aria-labelledby="miscut-head">
      <h1 id="miscut-head">What went wrong?</h1>
      <Choice
        label="Which piece"
        value={product.id}
        options={[first!, ...others.slice(0, shownBeside)].map((one) => ({
          value: one.product.id,
          label: `${name(one)}${place(one)}`,
        }))}
        onChange={meantBy}
      />
      {others.length > shownBeside && (
        <details className="miscut-others">
          <summary>Another piece</summary>
          <div className="miscut-list">
            {others.slice(shownBeside).map((one) => (
              <button key={one.product.id} type="button" onClick={() => meantBy(one.product.id)}>
                {name(one)}
              </button>
            ))}
          </div>
        </details>
      )}
      <Choice
        label="What is wrong with it"
        value={why}
        options={whys.map((one) => ({ value: one, label: one }))}
        onChange={setWhy}
      />
      <MmField
        label={`What can still be cut from ${name(one)}`}
        value={left}
        reading={shop.reading}
        optional
        hint="On its short side. Leave it empty and press Scrap where nothing can."
        possible={{ most: one.length, why: 'it was to be that long' }}
        onChange={(mm) => setTyped({ mm })}
      />
      {left !== undefined && left > 0 && (
        <p className="miscut-fits">
          {sayFits(fitsIn(nest, view.cuts, section, { length: left, ends }), shop)}
        </p>
      )}
      <p className="miscut-again">{sayAgain(one, nest, progress, shop)}</p>
      <div className="state-keys">
        <button
          type="button"
          className="go"
          disabled={busy || left === undefined || left <= 0}
          onClick={() => void end(left!)}
        >
          {left !== undefined && left > 0 ? `Keep ${say(left, shop.reading)} of it` : 'Keep what is left'}
        </button>
        <button type="button" className="go" disabled={busy} onClick={() => void end(0)}>
          Scrap {calledOf(product, products).piece}
        </button>
        <button type="button" onClick={props.onEnd}>
          Back
        </button>
      </div>
    </section>
  )
}

function sayFits(fit: ReturnType<typeof fitsIn>, shop: Shop): string {
  if (fit.length === 0) return 'No part that is still open fits in what is left.'
  const parts = fit.map(({ mark, length }) => `${mark}, ${say(length, shop.reading)}`)
  return `Fits in what is left: ${parts.join('; ')}.`
}

function sayAgain(
  { product, section, length: long }: Suspect,
  nest: Nest,
  progress: Progress,
  shop: Shop,
): string {
  const says = saysOf(shop)
  const piece = nest.sections
    .flatMap(({ sticks }) => sticks.flatMap(({ pieces }) => pieces))
    .find(({ mark }) => mark === product.mark)
  // A blank is its own length: one of two pieces is longer than the piece whose mark it bears.
  const length = piece && product.kind !== 'blank' ? piece.ends[0].x - piece.ends[1].x : long
  const steel = steelAgain(nest, progress, section, length)
  const marks = rackMarks(progress.rack)
  const mark = product.mark ?? product.id
  if (steel.length === 0) return `No steel is there for another ${mark}: the new plan says what to buy.`
  const words = steel.slice(0, 3).map((one) => {
    const long = say(one.length, shop.reading)
    if (one.kind === 'rack') return `${marks.get(one.rack) ?? 'a piece'} on the rack, ${long}`
    return `${long} left over of ${says.stick} ${one.stick}${one.open ? '' : ', not yet opened'}`
  })
  return `Steel for another ${mark}: ${words.join('; ')}.`
}
