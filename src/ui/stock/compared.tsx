import type { Comes, Compared, WhatIf } from '../../app/compare.ts'
import { hasPrices } from '../../core/buy/bars.ts'
import { sayMoney } from '../../core/buy/money.ts'
import { soldLength } from '../../core/buy/order-text.ts'
import { boughtLength, wholeSticks } from '../../core/buy/whole-sticks.ts'
import type { Nest, NestSection } from '../../core/nest.ts'
import { sectionName } from '../../core/section/name.ts'
import { sectionKey } from '../../core/section/section.ts'
import type { Shop } from '../../core/shop.ts'
import { capital, count, saysOf } from '../words.ts'

/** What the rack saved, and what a longer or shorter stock length would change. */
export function ComparedStock(props: {
  readonly nest: Nest
  readonly shop: Shop
  readonly compared: Compared | undefined
  readonly onCompare: () => void
}) {
  const { nest, shop, compared } = props
  return (
    <section className="compared" aria-labelledby="compared-head">
      <h3 id="compared-head">What other {saysOf(shop).sticks} would change</h3>
      {compared && (
        <ul>
          {compared.rows.map((row) => {
            const key = sectionKey(row.section)
            const now = nest.sections.find((section) => sectionKey(section.section) === key)
            return (
              <li key={`${key} ${row.cut ?? row.length ?? 'no rack'}`}>
                {nest.sections.length > 1 && (
                  <span className="dim">{sectionName(row.section, shop.reading)}, </span>
                )}
                {now && sayWhatIf(row, now, shop)}
              </li>
            )
          })}
          {!compared.working && compared.rows.length === 0 && (
            <li>There is no other length to compare with: add one to the section in Shop.</li>
          )}
        </ul>
      )}
      <p role="status">{compared?.working && 'Working it out …'}</p>
      {!compared && (
        <button type="button" onClick={props.onCompare}>
          Compare with other lengths and without the rack
        </button>
      )}
    </section>
  )
}

/** What the nest in use comes to, in the same terms. */
export function comesNow(section: NestSection): Comes {
  const bought = section.sticks.filter(({ from }) => from === 'buy')
  return {
    sticks: wholeSticks(bought),
    bought: boughtLength(bought),
    ...(hasPrices(section) ? { cents: section.cost } : {}),
    proved: section.proved,
  }
}

/** `only 24 ft: 3 sticks, $210.00, $24.00 more`. */
export function sayWhatIf({ length, cut, comes }: WhatIf, section: NestSection, shop: Shop): string {
  const says = saysOf(shop)
  const what =
    cut !== undefined
      ? cut === 'in half'
        ? 'delivered cut in half'
        : 'delivered whole'
      : length === undefined
        ? 'without the rack'
        : `only ${soldLength(length, shop.reading)}`
  if ('not' in comes) return `${what}: cannot be done. ${comes.not}`
  const now = comesNow(section)
  const sticks = count(comes.sticks, says.stick, says.sticks)
  const money = comes.cents === undefined ? '' : `, ${sayMoney(comes.cents, shop.currency)}`
  const text = `${what}: ${sticks}${money}, ${difference(comes, now, shop)}`
  const about = comes.proved ? '' : ' (best found, not proved)'
  if (length !== undefined || cut !== undefined) return `${text}${about}`
  const saved = comes.sticks - now.sticks
  return `${text}${about}${saved > 0 ? `. The rack saves ${count(saved, says.stick, says.sticks)}` : ''}`
}

/** In money where both have a price, else in the length that is bought. */
function difference(comes: Comes, now: Comes, shop: Shop): string {
  const priced = comes.cents !== undefined && now.cents !== undefined
  const more = priced ? comes.cents! - now.cents! : comes.bought - now.bought
  if (Math.abs(more) < 0.5) return priced ? 'the same price' : 'as much bought'
  const size = priced ? sayMoney(Math.abs(more), shop.currency) : soldLength(Math.abs(more), shop.reading)
  return `${size} ${more > 0 ? 'more' : 'less'}${priced ? '' : ' bought'}`
}

export const provedWords = (words: string): string =>
  words === 'proved least' ? 'proved least: no plan buys less' : capital(words)
