import { useState } from 'react'
import { showLength, showMass } from '../../core/reading/show.ts'
import { sectionName } from '../../core/section/name.ts'
import { sectionKey } from '../../core/section/section.ts'
import type { Shop } from '../../core/shop.ts'
import { LengthText } from '../fields/length-text.tsx'
import { capital, saysOf } from '../words.ts'
import { type BuyLine, buyText, sayMoney, totalsOf } from './buy.ts'

interface BuyProps {
  readonly name: string
  readonly lines: readonly BuyLine[]
  readonly shop: Shop
  readonly onBought: (line: BuyLine, count: number) => void
}

/** What has to be bought, with a key on each line that puts it on the rack. */
export function BuyList({ name, lines, shop, onBought }: BuyProps) {
  const says = saysOf(shop)
  const totals = totalsOf(lines)
  if (lines.length === 0)
    return (
      <section className="buy" aria-labelledby="buy-head">
        <h2 id="buy-head">To buy</h2>
        <p className="state cut">Nothing: the rack has it all.</p>
      </section>
    )
  return (
    <section className="buy" aria-labelledby="buy-head">
      <h2 id="buy-head">To buy</h2>
      <ul className="buy-list">
        {lines.map((line) => (
          <li key={`${sectionKey(line.section)} ${line.length}`} className="buy-line">
            <p>
              <b>
                {line.count} × <LengthText of={showLength(line.length, shop.reading)} />
              </b>{' '}
              {sectionName(line.section, shop.reading)}
              <span className="dim">
                {' '}
                · {showMass(line.mass, shop.mass)}
                {line.price !== undefined && ` · ${sayMoney(line.price, shop.currency)} each`}
              </span>
            </p>
            <Bought line={line} says={says} onBought={onBought} />
          </li>
        ))}
      </ul>
      <p>
        In all <b>{totals.count}</b> {totals.count === 1 ? says.stick : says.sticks},{' '}
        {showMass(totals.mass, shop.mass)}
        {totals.price !== undefined && `, ${sayMoney(totals.price, shop.currency)}`}
      </p>
      <CopyText text={buyText(name, lines, shop)} />
    </section>
  )
}

function Bought({
  line,
  says,
  onBought,
}: {
  line: BuyLine
  says: ReturnType<typeof saysOf>
  onBought: BuyProps['onBought']
}) {
  const open = line.count - line.there
  const word = (n: number) => (n === 1 ? says.stick : says.sticks)
  return (
    <div className="bought">
      {line.there > 0 && <span className="state cut">{open === 0 ? 'bought' : `${line.there} bought`}</span>}
      {open > 0 && (
        <button type="button" onClick={() => onBought(line, open)}>
          Bought {open} {word(open)}
        </button>
      )}
    </div>
  )
}

/** The list as text. Where the browser gives no clipboard, the text stands there to be marked by hand. */
function CopyText({ text }: { text: string }) {
  const [said, setSaid] = useState('')
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text)
      setSaid('Copied.')
    } catch {
      setSaid('The browser did not allow it: mark the text below and copy it.')
    }
  }
  return (
    <details className="copy-text">
      <summary>{capital('as text')}</summary>
      <textarea readOnly value={text} rows={text.split('\n').length + 1} aria-label="Buy list as text" />
      <button type="button" onClick={() => void copy()}>
        Copy the text
      </button>
      <p role="status">{said}</p>
    </details>
  )
}
