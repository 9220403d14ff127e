import type { SetUp } from '../../core/plan-shapes.ts'
import { habitsOf } from '../../core/saw/first-piece.ts'
import type { Shop } from '../../core/shop.ts'
import { capital } from '../words.ts'

/** What this shop wants said at every set-up, and where pieces may be cut side by side. */
export function Habits({ setUp: { gang }, shop }: { setUp: SetUp; shop: Shop }) {
  const lines = [
    ...(gang
      ? [
          `May be cut ${gang.count} side by side, if the vise holds them all: saves about ${minutes(gang.saves)}. Check each one off.`,
        ]
      : []),
    ...habitsOf(shop).map(({ text }) => `${capital(text)}.`),
  ]
  if (lines.length === 0) return null
  return (
    <ul className="habits dim">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  )
}

const minutes = (much: number): string => (much < 1.5 ? 'a minute' : `${Math.round(much)} minutes`)
