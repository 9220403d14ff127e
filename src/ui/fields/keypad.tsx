/** The keys of a keypad: what is shown, what is typed, and how a screen reader names it. */
interface Key {
  readonly shows: string
  readonly types: string
  readonly name?: string
}

const digit = (shows: string): Key => ({ shows, types: shows })

const inchKeys: readonly Key[] = [
  ...'789'.split('').map(digit),
  { shows: '′', types: "'", name: 'feet' },
  ...'456'.split('').map(digit),
  { shows: '″', types: '"', name: 'inches' },
  ...'123'.split('').map(digit),
  { shows: '⁄', types: '/', name: 'fraction bar' },
  digit('.'),
  digit('0'),
  { shows: '−', types: ' - ', name: 'minus' },
  { shows: 'space', types: ' ' },
]

const metricKeys: readonly Key[] = [
  ...'789'.split('').map(digit),
  { shows: 'mm', types: ' mm' },
  ...'456'.split('').map(digit),
  { shows: '⁄', types: '/', name: 'fraction bar' },
  ...'123'.split('').map(digit),
  { shows: '″', types: '"', name: 'inches' },
  digit('.'),
  digit('0'),
  { shows: '−', types: ' - ', name: 'minus' },
  { shows: 'space', types: ' ' },
]

const plainKeys: readonly Key[] = ['7', '8', '9', '4', '5', '6', '1', '2', '3', '.', '0', '½'].map(digit)

export type KeypadKind = 'in' | 'mm' | 'plain'

const keysOf: Readonly<Record<KeypadKind, readonly Key[]>> = {
  in: inchKeys,
  mm: metricKeys,
  plain: plainKeys,
}

/**
 * Keys for gloved fingers under the field that has the focus. It types into that field and never takes the
 * focus away from it; a real keyboard works beside it, so its keys are left out of the tab order.
 */
export function Keypad(props: {
  readonly kind: KeypadKind
  readonly says: string
  readonly wrong: boolean
  readonly type: (text: string) => void
  readonly back: () => void
  readonly done: () => void
}) {
  return (
    <fieldset
      className={`keypad ${props.kind}`}
      aria-label="Keypad"
      onPointerDown={(event) => event.preventDefault()}
    >
      <p className={props.wrong ? 'understood wrong' : 'understood'} aria-hidden="true">
        {props.says}
      </p>
      <div className="keys">
        {keysOf[props.kind].map((key) => (
          <button
            key={key.shows}
            type="button"
            tabIndex={-1}
            aria-label={key.name ?? key.shows}
            onClick={() => props.type(key.types)}
          >
            {key.shows}
          </button>
        ))}
        <button type="button" tabIndex={-1} aria-label="take back one" className="wide" onClick={props.back}>
          ⌫
        </button>
        <button type="button" tabIndex={-1} className="go wide" onClick={props.done}>
          Done
        </button>
      </div>
    </fieldset>
  )
}
