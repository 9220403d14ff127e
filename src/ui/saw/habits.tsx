import { habitsOf } from '../../core/saw/first-piece.ts'
import type { Shop } from '../../core/shop.ts'
import { capital } from '../words.ts'

/** What this shop wants said at every set-up. */
export function Habits({ shop }: { shop: Shop }) {
  const lines = habitsOf(shop).map(({ text }) => `${capital(text)}.`)
  if (lines.length === 0) return null
  return (
    <ul className="habits dim">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  )
}
