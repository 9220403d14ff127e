import { useState } from 'react'
import { sayMachine } from '../../core/finish/record.ts'
import { wallName } from '../../core/section/name.ts'
import type { WeldSetting } from '../../core/shop.ts'
import { count } from '../words.ts'
import type { ShopPart } from './shop.tsx'

/** What the welding machine was set to, and how it went: records are kept at Weld, and looked over here. */
export function SettingsBook({ shop, change }: ShopPart) {
  const book = shop.settings ?? []
  const [gone, setGone] = useState<WeldSetting | null>(null)
  const remove = (one: WeldSetting) => {
    setGone(one)
    change({ settings: book.filter((each) => each !== one) })
  }
  const putBack = (one: WeldSetting) => {
    setGone(null)
    change({ settings: [...book, one] })
  }
  return (
    <section className="shop-part" aria-labelledby="book-head">
      <h2 id="book-head">Settings book</h2>
      {gone && (
        <p role="status">
          Taken out.{' '}
          <button type="button" onClick={() => putBack(gone)}>
            Put it back
          </button>
        </p>
      )}
      {book.length === 0 ? (
        <p className="dim">Empty. What the machine was set to is written down at Weld, at a pass.</p>
      ) : (
        <details className="shop-item">
          <summary>{count(book.length, 'record', 'records')}</summary>
          <ul className="settings-book">
            {book.map((one, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: records have no name; two may read alike
              <li key={at}>
                <span>
                  <b>
                    {wallName(one.wall, shop.reading)} wall, {one.joint}, it went {one.result}
                  </b>
                  : {sayMachine(one)}.
                </span>
                <button type="button" onClick={() => remove(one)}>
                  Take out<span className="heard"> record {at + 1}</span>
                </button>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  )
}
