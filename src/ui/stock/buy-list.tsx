import { useState } from 'react'
import type { BarLine } from '../../core/buy/bars.ts'
import type { FlatBarLine } from '../../core/buy/flat-bar.ts'
import type { BuyList as List } from '../../core/buy/list.ts'
import { sayMoney } from '../../core/buy/money.ts'
import {
  barText,
  flatCuts,
  flatText,
  halvesText,
  hardwareText,
  orderText,
  sheetCuts,
  sheetOrder,
  totalText,
} from '../../core/buy/order-text.ts'
import type { SheetLine } from '../../core/buy/sheet.ts'
import { showMass } from '../../core/reading/show.ts'
import { type Section, sectionKey } from '../../core/section/section.ts'
import type { Shop } from '../../core/shop.ts'
import { TakeTable } from '../fields/take-table.tsx'
import { saysOf } from '../words.ts'
import { buyOut } from './tables-out.ts'

interface BuyProps {
  readonly name: string
  readonly list: List
  readonly shop: Shop
  readonly printHref: string
  readonly onBought: (section: Section, length: number, count: number, price?: number) => void
}

/** What has to be bought, all of it in the words of an order, with a key on each bar that puts it on the rack. */
export function BuyList({ name, list, shop, printHref, onBought }: BuyProps) {
  const { bars, flat, sheets, hardware } = list
  const nothing =
    bars.length === 0 && flat.every(({ onRack }) => onRack) && sheets.every(({ open }) => open === 0)
  return (
    <section className="buy" aria-labelledby="buy-head">
      <h2 id="buy-head">To buy</h2>
      {bars.length === 0 && <p className="state cut">No tube and no bar: the rack has it all.</p>}
      <ul className="buy-list">
        {bars.map((line) => (
          <Bars
            key={`${sectionKey(line.section)} ${line.length}`}
            line={line}
            shop={shop}
            onBought={onBought}
          />
        ))}
        {flat.map((line) => (
          <FlatBar key={sectionKey(line.section)} line={line} shop={shop} onBought={onBought} />
        ))}
        {sheets.map((line, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two jobs may each have a P1 of one thickness
          <Sheet key={at} line={line} shop={shop} />
        ))}
        {hardware.map((line) => (
          <li key={line.text} className="buy-line">
            <p>
              <b>{hardwareText(line)}</b>
            </p>
          </li>
        ))}
      </ul>
      {!nothing && (
        <p>
          <b>{totalText(list, shop)}</b>
        </p>
      )}
      <CopyText text={orderText(name, list, shop)} />
      <p>
        <a className="button" href={printHref}>
          Print it, with the {saysOf(shop).sticks}
        </a>
      </p>
      <TakeTable name={name} what="buy list" table={() => buyOut(list, shop)} />
    </section>
  )
}

const sayEach = (price: number | undefined, shop: Shop) =>
  price === undefined ? '' : ` · ${sayMoney(price, shop.currency)} each`

function Bars({ line, shop, onBought }: { line: BarLine; shop: Shop; onBought: BuyProps['onBought'] }) {
  const says = saysOf(shop)
  const open = line.count - line.there
  // On the rack lies what comes: halves where sticks are cut in half.
  const { halves, price } = line
  const delivered: [length: number, count: number, price?: number] = halves
    ? [halves.length, 2 * open]
    : [line.length, open, price]
  return (
    <li className="buy-line">
      <p>
        <b>{barText(line, shop)}</b>
        <span className="dim">
          {' '}
          · {showMass(line.mass, shop.mass)}
          {sayEach(line.price, shop)}
          {line.halves && ` · ${halvesText(line, shop)}`}
        </span>
      </p>
      <div className="bought">
        {line.there > 0 && (
          <span className="state cut">{open === 0 ? 'bought' : `${line.there} bought`}</span>
        )}
        {open > 0 && (
          <button type="button" onClick={() => onBought(line.section, ...delivered)}>
            Bought {open} {open === 1 ? says.stick : says.sticks}
          </button>
        )}
      </div>
    </li>
  )
}

function FlatBar(props: { line: FlatBarLine; shop: Shop; onBought: BuyProps['onBought'] }) {
  const { line, shop, onBought } = props
  const says = saysOf(shop)
  const { section, bars, onRack } = line
  return (
    <li className="buy-line">
      <p>
        <b>{flatText(line, shop)}</b>
        <span className="dim">
          {' '}
          · {flatCuts(line, shop)}
          {sayEach(onRack ? undefined : bars?.price, shop)}
        </span>
      </p>
      <div className="bought">
        {onRack && <span className="state cut">there</span>}
        {bars && !onRack && (
          <button type="button" onClick={() => onBought(section, bars.length, bars.count, bars.price)}>
            Bought {bars.count} {bars.count === 1 ? says.stick : says.sticks}
          </button>
        )}
      </div>
    </li>
  )
}

function Sheet({ line, shop }: { line: SheetLine; shop: Shop }) {
  return (
    <li className="buy-line">
      <p>
        <b>{sheetOrder(line, shop)}</b>
        <span className={line.tooSmall ? 'buy-fault' : 'dim'}>
          {' '}
          · {sheetCuts(line, shop)}
          {line.open > 0 && ` · ${showMass(line.mass, shop.mass)}`}
          {sayEach(line.from?.sheet.price, shop)}
        </span>
      </p>
      {line.open === 0 && (
        <div className="bought">
          <span className="state cut">there</span>
        </div>
      )}
    </li>
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
      setSaid('The browser did not allow it: mark the text above and copy it.')
    }
  }
  return (
    <details className="copy-text">
      <summary>As text for an order</summary>
      <textarea readOnly value={text} rows={text.split('\n').length + 2} aria-label="Buy list as text" />
      <button type="button" onClick={() => void copy()}>
        Copy the text
      </button>
      <p role="status">{said}</p>
    </details>
  )
}
