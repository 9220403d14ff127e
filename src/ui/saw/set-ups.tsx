import type { Run } from '../../core/plan-shapes.ts'
import { sectionName } from '../../core/section/name.ts'
import type { Reading, Shop } from '../../core/shop.ts'
import { LengthText } from '../fields/length-text.tsx'
import { count } from '../words.ts'
import { calledOf, sayAngles } from './say.ts'
import type { Station } from './work.ts'

export type StationState = 'to go' | 'on now' | 'cut'

export const stateOf = (station: Station, home: string | undefined): StationState =>
  station.cut === station.cuts.length ? 'cut' : station.setUp.id === home ? 'on now' : 'to go'

const classOf: Readonly<Record<StationState, string>> = {
  'to go': 'state',
  'on now': 'state now',
  cut: 'state cut',
}

/** `A, C blanks`: the marks that a set-up cuts, and at which stage. */
export function marksOf(station: Station, products: Run['products']): string {
  const groups = new Map<string, Set<string>>()
  for (const { product } of station.cuts) {
    const { piece, stage } = calledOf(product, products)
    const marks = groups.get(stage) ?? new Set()
    groups.set(stage, marks.add(product.mark ?? piece))
  }
  return [...groups].map(([stage, marks]) => [...marks].join(', ') + (stage ? `, ${stage}` : '')).join('; ')
}

/** `3 cut, 4 to go`. */
export const sayCount = (station: Station): string => {
  const open = station.cuts.length - station.cut
  if (open === 0) return station.cut === 1 ? 'cut' : `all ${station.cut} cut`
  return station.cut === 0 ? `${open} to go` : `${station.cut} cut, ${open} to go`
}

function Ticks({ station, current }: { station: Station; current: number | undefined }) {
  const many = station.cuts.length > 24
  if (many) {
    const part = (station.cut / station.cuts.length) * 100
    return (
      <svg className="tick-bar" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
        <rect className="bar-rim" x="0" y="0" width="100" height="8" />
        <rect className="bar-cut" x="0" y="0" width={part} height="8" />
      </svg>
    )
  }
  return (
    <span className="ticks" aria-hidden="true">
      {station.cuts.map((cut) => (
        <i key={cut.index} className={cut.done ? 'cut' : cut.index === current ? 'now' : undefined} />
      ))}
    </span>
  )
}

/** Every set-up of the run in the order of work, each with its state, to be gone to. */
export function SetUpList(props: {
  readonly stations: readonly Station[]
  readonly shown: string | undefined
  /** Where the order of work stands. */
  readonly home: string | undefined
  readonly current: number | undefined
  readonly products: Run['products']
  readonly shop: Shop
  readonly onGo: (setUp: string) => void
}) {
  return (
    <nav className="set-ups" aria-label="Set-ups">
      <ol>
        {props.stations.map((station) => (
          <SetUpLine
            key={station.setUp.id}
            station={station}
            state={stateOf(station, props.home)}
            shown={station.setUp.id === props.shown}
            current={props.current}
            products={props.products}
            shop={props.shop}
            reading={props.shop.reading}
            onGo={props.onGo}
          />
        ))}
      </ol>
    </nav>
  )
}

function SetUpLine(props: {
  station: Station
  state: StationState
  shown: boolean
  current: number | undefined
  products: Run['products']
  shop: Shop
  reading: Reading
  onGo: (setUp: string) => void
}) {
  const { station, state, shown, products, shop } = props
  const { setUp } = station
  const saw = shop.saws.find((one) => one.id === setUp.saw)
  const saws = shop.saws.length > 1 && saw ? `, ${saw.name}` : ''
  return (
    <li>
      <button
        type="button"
        className={`set-up ${state.replace(' ', '-')}`}
        aria-current={shown ? 'step' : undefined}
        onClick={() => props.onGo(setUp.id)}
      >
        <span className="set-up-head">
          <b>
            {station.number} · {sayAngles(setUp, saw)}
          </b>
          <span className="set-up-stop">
            stop <LengthText of={setUp.printed.stop} />
          </span>
        </span>
        <span className="set-up-what">
          {marksOf(station, products)} · {sectionName(setUp.section, props.reading)}
          {saws}
        </span>
        <Ticks station={station} current={props.current} />
        <span className={classOf[state]}>
          {state === 'on now' ? `${state}: ${sayCount(station)}` : sayCount(station)}
        </span>
      </button>
    </li>
  )
}

/** What is set next, as one line. */
export function NextSetUp({
  station,
  products,
  shop,
}: {
  station: Station
  products: Run['products']
  shop: Shop
}) {
  const saw = shop.saws.find((one) => one.id === station.setUp.saw)
  return (
    <p className="next-set-up">
      <span className="dim">Next set-up: </span>
      <b>
        {station.number} · {sayAngles(station.setUp, saw)}
      </b>
      , stop <LengthText of={station.setUp.printed.stop} />, {marksOf(station, products)},{' '}
      {count(station.cuts.length - station.cut, 'cut')}
    </p>
  )
}
