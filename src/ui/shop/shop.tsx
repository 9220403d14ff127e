import './shop.css'
import { useState } from 'react'
import type { Problem } from '../../core/result.ts'
import type { Shop as ShopFigures } from '../../core/shop.ts'
import { useActions, useShop } from '../app.ts'
import { About } from './about.tsx'
import { Backup } from './backup.tsx'
import { Bench } from './bench.tsx'
import { Habits } from './habits.tsx'
import { ReadingAndWords } from './reading-and-words.tsx'
import { Saws } from './saws.tsx'
import { Sections } from './sections.tsx'
import { SettingsBook } from './settings-book.tsx'
import { Sheets } from './sheets.tsx'

/** What every part of the Shop station is given: the figures as they stand, and the way to change some. */
export interface ShopPart {
  readonly shop: ShopFigures
  readonly change: (some: Partial<ShopFigures>) => void
}

/** What is true here? Figures that hold for every job; each is kept as soon as it is given. */
export function Shop() {
  const shop = useShop()
  const { saveShop } = useActions()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const change = async (some: Partial<ShopFigures>) => setProblems(await saveShop({ ...shop, ...some }, shop))
  const part: ShopPart = { shop, change: (some) => void change(some) }
  return (
    <div className="shop">
      <header className="shop-head">
        <h1>{shop.name}</h1>
        <p className="dim">
          What is true in this shop, whatever is built. A nest that was accepted keeps the figures it was made
          with.
        </p>
      </header>
      {problems.length > 0 && (
        <div className="problem" role="alert">
          {problems.map(({ text }) => (
            <p key={text}>{text}</p>
          ))}
          <p className="dim">It was not kept.</p>
        </div>
      )}
      <ReadingAndWords {...part} />
      <Saws {...part} />
      <Sections {...part} />
      <Sheets {...part} />
      <Habits {...part} />
      <Bench {...part} />
      <SettingsBook {...part} />
      <Backup {...part} />
      <About />
    </div>
  )
}
