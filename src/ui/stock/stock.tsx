import './stock.css'
import { useLayoutEffect, useMemo, useRef, useState } from 'react'
import { lastOnRack, type RackFact } from '../../app/rack.ts'
import type { JobView } from '../../app/state.ts'
import { dropText } from '../../core/buy/order-text.ts'
import { carriedOf } from '../../core/parts/demand.ts'
import { say } from '../../core/reading/show.ts'
import { type Section, sectionKey } from '../../core/section/section.ts'
import type { Shop } from '../../core/shop.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { Changed } from '../saw/changed.tsx'
import { NoNest, NoPlan, Refused } from '../saw/waiting.tsx'
import { hrefOf } from '../shell/route.ts'
import type { StationProps } from '../shell/stations.tsx'
import { DeliveredInHalf } from './delivered.tsx'
import { Laid } from './laid.tsx'
import { WishBack } from './one-stick.tsx'
import { Rack } from './rack.tsx'
import { SheetDrops } from './sheet-drops.tsx'
import { Together } from './together.tsx'
import { WayBack } from './ways.tsx'
import type { PartName } from './where-used.tsx'

/** The Stock station: what to buy, what lies on the rack, and which piece comes out of which stick. */
export function Stock({ view }: StationProps) {
  const shop = useShop()
  const actions = useActions()
  const progress = useApp((state) => state.progress)
  const facts = useApp((state) => state.facts)
  const undone = useMemo(() => lastOnRack(facts, progress.opened), [facts, progress.opened])
  const { plan, nest } = view
  const sizes = hrefOf({ station: 'sizes', job: view.id })
  const refused = view.refused.length > 0
  const rackOf = new Map(
    (nest && !refused ? nest.sections : [])
      .flatMap((section) => section.sticks)
      .flatMap((stick) => (stick.rack === undefined ? [] : [[stick.rack, stick.id] as const])),
  )
  const [chosen, choose] = useState<PartName | undefined>()
  const waits = !nest && !refused && !view.nesting.rest && view.nesting.state !== 'failed'
  const [main, held] = useHeldHeight(waits)
  return (
    <div className="stock">
      <div
        ref={main}
        className={held === undefined ? 'stock-main' : 'stock-main held'}
        style={{ minHeight: held }}
      >
        {refused ? (
          <Refused faults={view.refused} sizesHref={sizes} />
        ) : !plan ? (
          <NoPlan problems={view.problems} sizesHref={sizes} />
        ) : view.nesting.rest ? (
          <Changed view={view} plan={plan} />
        ) : nest ? (
          <Laid view={view} plan={plan} nest={nest} shop={shop} chosen={chosen} onChoose={choose} />
        ) : (
          <NoNest
            nesting={view.nesting}
            onStop={() => actions.stopSolving(view.id)}
            onAgain={() => actions.show(view.id)}
          />
        )}
        {(refused || !plan || view.stale || view.nesting.state === 'failed') && (
          <>
            <WayBack view={view} />
            <WishBack view={view} />
          </>
        )}
      </div>
      <div className="stock-side">
        <Together view={view} nest={nest} />
        <DeliveredInHalf
          carried={sectionsOf(view, { ...shop, sections: [] }).flatMap((one) => carriedOf(shop, one) ?? [])}
          shop={shop}
          onChange={(carried, wanted) =>
            void actions.saveShop(
              {
                ...shop,
                sections: shop.sections.map((one) =>
                  one === carried && one.inHalves ? { ...one, inHalves: { ...one.inHalves, wanted } } : one,
                ),
              },
              shop,
            )
          }
        />
        <Rack
          rack={progress.rack}
          shop={shop}
          sections={sectionsOf(view, shop)}
          used={rackOf}
          undoes={undone && sayRackFact(undone, shop)}
          onUndo={() => void actions.undoRack()}
          onCorrect={(rack, length) => void actions.correct(rack, length)}
          onDiscard={(rack) => void actions.discard(rack)}
          onFound={(body) => void actions.found(body)}
          onBought={(section, length, count) => void actions.bought(section, length, count)}
        />
        <SheetDrops
          sheets={progress.sheets}
          shop={shop}
          onFound={(body) => void actions.sheetFound(body)}
          onCorrect={(sheet, length, width) => void actions.sheetCorrected({ sheet, length, width })}
          onDiscard={(sheet) => void actions.sheetDiscarded(sheet)}
        />
      </div>
    </div>
  )
}

/** While a layout is worked out anew the page stays as high as it was, so that it does not run from under the finger. */
function useHeldHeight(waits: boolean) {
  const main = useRef<HTMLDivElement>(null)
  const [high, setHigh] = useState(0)
  useLayoutEffect(() => {
    if (!waits) setHigh(main.current?.offsetHeight ?? 0)
  })
  return [main, waits ? high : undefined] as const
}

function sayRackFact({ kind, body }: RackFact, shop: Shop): string {
  if (kind === 'sheetFound' || kind === 'sheetCorrected')
    return `sheet ${kind === 'sheetFound' ? 'found' : 'corrected'} ${dropText(body, shop.reading)}`
  if (kind === 'sheetDiscarded') return 'sheet discarded'
  const length = 'length' in body ? ` ${say(body.length, shop.reading)}` : ''
  if (kind === 'bought') return `bought ${body.count} ×${length}`
  return `${kind}${length}`
}

/** Sections of the job first, then those that the shop carries besides. */
function sectionsOf(view: JobView, shop: Shop): readonly Section[] {
  const all = [
    ...(view.plan?.demand.map((problem) => problem.section) ?? []),
    ...shop.sections.map((carried) => carried.section),
  ]
  const keys = all.map(sectionKey)
  return all.filter((section, at) => keys.indexOf(sectionKey(section)) === at)
}
