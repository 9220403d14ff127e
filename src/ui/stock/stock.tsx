import './stock.css'
import { useMemo } from 'react'
import { lastOnRack, type RackFact } from '../../app/rack.ts'
import type { JobView } from '../../app/state.ts'
import { hasPrices } from '../../core/buy/bars.ts'
import { buyList } from '../../core/buy/list.ts'
import { sayMoney } from '../../core/buy/money.ts'
import type { Nest } from '../../core/nest.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import { say } from '../../core/reading/show.ts'
import { sectionName } from '../../core/section/name.ts'
import { type Section, sectionKey } from '../../core/section/section.ts'
import type { Shop } from '../../core/shop.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { Changed, farFrom, NestWork, NoNest, NoPlan, Refused, Spares, Stale } from '../saw/waiting.tsx'
import { hrefOf } from '../shell/route.ts'
import type { StationProps } from '../shell/stations.tsx'
import { capital, saysOf } from '../words.ts'
import { BuyList } from './buy-list.tsx'
import { Rack } from './rack.tsx'
import { Sticks } from './sticks.tsx'

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
  return (
    <div className="stock">
      <div className="stock-main">
        {refused ? (
          <Refused faults={view.refused} sizesHref={sizes} />
        ) : !plan ? (
          <NoPlan problems={view.problems} sizesHref={sizes} />
        ) : view.nesting.rest ? (
          <Changed
            nesting={view.nesting}
            spares={view.spares}
            shop={shop}
            onPlanRest={() => void actions.planRest(view.id)}
          />
        ) : nest ? (
          <Laid view={view} plan={plan} nest={nest} shop={shop} />
        ) : (
          <NoNest
            nesting={view.nesting}
            onStop={() => actions.stopSolving(view.id)}
            onAgain={() => actions.show(view.id)}
          />
        )}
      </div>
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
    </div>
  )
}

function sayRackFact({ kind, body }: RackFact, shop: Shop): string {
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

function Laid({ view, plan, nest, shop }: { view: JobView; plan: Plan; nest: Nest; shop: Shop }) {
  const actions = useActions()
  const progress = useApp((state) => state.progress)
  const says = saysOf(shop)
  const list = buyList([plan], nest, shop, progress)
  return (
    <>
      {view.nesting.state === 'working' && (
        <NestWork nesting={view.nesting} usable onStop={() => actions.stopSolving(view.id)} />
      )}
      <Stale view={view} sizesHref={hrefOf({ station: 'sizes', job: view.id })} />
      <Spares spares={view.spares} shop={shop} />
      <BuyList
        name={view.job.name}
        list={list}
        shop={shop}
        onBought={(...of) => void actions.bought(...of)}
      />
      <section className="laid" aria-labelledby="laid-head">
        <h2 id="laid-head">What comes from what</h2>
        <ul className="how-good">
          {nest.sections.map((section) => (
            <li key={sectionKey(section.section)}>
              {sectionName(section.section, shop.reading)}:{' '}
              <b>{farFrom(section.cost, section.bound, section.proved)}</b>
              <span className="dim">
                {' '}
                ·{' '}
                {hasPrices(section)
                  ? sayMoney(section.cost, shop.currency)
                  : `${say(section.cost, shop.reading)} bought`}
              </span>
            </li>
          ))}
        </ul>
        <Accepted view={view} onAccept={() => void actions.accept(view.id)} />
        <Sticks
          nest={nest}
          shop={shop}
          cuts={view.cuts}
          isScrap={(stick) => progress.scrapped.includes(`${nest.id}/${stick}`)}
          isKept={(stick) => progress.kept.includes(`${nest.id}/${stick}`)}
          onKeepDrop={(stick, length) => void actions.keepDrop(view.id, stick, length)}
        />
        <p className="dim">
          Leading end at the left. Between two pieces the blade takes its kerf. {capital(says.drops)} shorter
          than {say(shop.leastDrop, shop.reading)} are scrap.
        </p>
      </section>
    </>
  )
}

/** An accepted layout never changes under the hand; before that, a better one or a change of the rack replaces it. */
function Accepted({ view, onAccept }: { view: JobView; onAccept: () => void }) {
  if (view.nesting.state === 'accepted')
    return (
      <p className="accepted state cut">
        Accepted: the saw and the paper work by this layout, and it stays as it is.
      </p>
    )
  return (
    <div className="accept">
      <p>
        Not accepted yet: it changes with the sizes and the rack. Printing it or the first cut accepts it, or
        this key.
      </p>
      <button type="button" className="go" onClick={onAccept}>
        Work by this layout
      </button>
    </div>
  )
}
