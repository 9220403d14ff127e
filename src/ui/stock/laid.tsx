import { useEffect, useMemo } from 'react'
import type { JobView } from '../../app/state.ts'
import { asked } from '../../app/view.ts'
import { waysAsked } from '../../app/ways.ts'
import { hasPrices } from '../../core/buy/bars.ts'
import { buyList } from '../../core/buy/list.ts'
import { sayMoney } from '../../core/buy/money.ts'
import { soldLength } from '../../core/buy/order-text.ts'
import type { Nest } from '../../core/nest.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import { say } from '../../core/reading/show.ts'
import { sectionName } from '../../core/section/name.ts'
import { sectionKey } from '../../core/section/section.ts'
import type { Shop } from '../../core/shop.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { TakeTable } from '../fields/take-table.tsx'
import { farFrom, NestWork, Spares, Stale } from '../saw/waiting.tsx'
import { hrefOf } from '../shell/route.ts'
import { capital, saysOf } from '../words.ts'
import { BuyList } from './buy-list.tsx'
import { ComparedStock, provedWords } from './compared.tsx'
import { Sticks } from './sticks.tsx'
import { sticksOut } from './tables-out.ts'
import { Ways } from './ways.tsx'
import { type PartName, WhereUsed } from './where-used.tsx'

/** What to buy and what comes from what, once there is a nest that the judges let pass. */
export function Laid(props: {
  readonly view: JobView
  readonly plan: Plan
  readonly nest: Nest
  readonly shop: Shop
  /** The part that is looked at. */
  readonly chosen: PartName | undefined
  readonly onChoose: (part: PartName | undefined) => void
}) {
  const { view, plan, nest, shop, chosen, onChoose } = props
  const actions = useActions()
  const progress = useApp((state) => state.progress)
  const says = saysOf(shop)
  const views = useApp((state) => state.views)
  const others = (view.together ?? []).flatMap((id) => views[id] ?? [])
  const plans = [plan, ...others.flatMap((other) => other.plan ?? [])]
  const list = buyList(plans, nest, shop, progress)
  const compared = useApp((state) => state.compared?.[view.id])
  const question = useMemo(() => asked(view.wanted ?? plan.demand), [view.wanted, plan])
  useCompared(view, nest, compared?.asked === question)
  const untouched = view.cuts.every(({ done }) => done === undefined)
  return (
    <>
      {view.nesting.state === 'working' && (
        <NestWork nesting={view.nesting} usable onStop={() => actions.stopSolving(view.id)} />
      )}
      <Stale view={view} sizesHref={hrefOf({ station: 'sizes', job: view.id })} />
      <Spares spares={view.spares} shop={shop} />
      <BuyList
        name={[view, ...others].map(({ job }) => job.name).join(' and ')}
        list={list}
        shop={shop}
        printHref={hrefOf({ station: 'paper', job: view.id, at: 'stock' })}
        onBought={(...of) => void actions.bought(...of)}
      />
      <section className="laid" aria-labelledby="laid-head">
        <h2 id="laid-head">What comes from what</h2>
        <ul className="how-good">
          {nest.sections.map((section) => (
            <li key={sectionKey(section.section)}>
              {sectionName(section.section, shop.reading)}:{' '}
              <b>{provedWords(farFrom(section.cost, section.bound, section.proved))}</b>
              <span className="dim">
                {' '}
                ·{' '}
                {hasPrices(section)
                  ? sayMoney(section.cost, shop.currency)
                  : `${soldLength(section.cost, shop.reading)} bought`}
              </span>
            </li>
          ))}
        </ul>
        <Accepted view={view} onAccept={() => void actions.accept(view.id)} />
        {untouched && (
          <ComparedStock
            nest={nest}
            shop={shop}
            compared={compared?.asked === question ? compared : undefined}
            onCompare={() => void actions.compare(view.id)}
          />
        )}
        <Ways view={view} />
        <WhereUsed
          view={view}
          plan={plan}
          nest={nest}
          shop={shop}
          chosen={chosen}
          fixed={!untouched || view.nesting.state === 'accepted'}
          onChoose={onChoose}
        />
        <Sticks
          nest={nest}
          job={view.id}
          parts={plan.parts}
          shop={shop}
          chosen={chosen}
          onChoose={onChoose}
          cuts={view.cuts}
          isScrap={(stick) => progress.scrapped.includes(`${nest.id}/${stick}`)}
          isKept={(stick) => progress.kept.includes(`${nest.id}/${stick}`)}
          onKeepDrop={(stick, length) => void actions.keepDrop(view.id, stick, length)}
        />
        <TakeTable
          name={view.job.name}
          what={`${says.sticks} and pieces`}
          table={() => sticksOut(nest, view.id, plan.parts, shop)}
        />
        <p className="dim">
          Leading end at the left. Between two pieces the blade takes its kerf. {capital(says.drops)} shorter
          than {say(shop.leastDrop, shop.reading)} are scrap.
        </p>
      </section>
    </>
  )
}

/** With more pieces than this a plan in each way is worth waiting for only where it is asked. */
const fewPieces = 300

/** Ways and lengths are compared by themselves once there is a layout, while it can still be another. */
function useCompared({ id, job, nesting }: JobView, { id: nest, sections }: Nest, known: boolean): void {
  const { compareWays, compare } = useActions()
  const asked = useApp((state) => state.ways?.[id]?.asked)
  const shop = useShop()
  const progress = useApp((state) => state.progress)
  const pieces = sections.flatMap(({ sticks }) => sticks).reduce((sum, stick) => sum + stick.pieces.length, 0)
  const may = nesting.state === 'found' && pieces <= fewPieces
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for each layout
  useEffect(() => {
    let gone = false
    if (may)
      void (async () => {
        if (asked !== waysAsked(job, { shop, progress })) await compareWays(id)
        if (!gone && !known) await compare(id)
      })()
    return () => {
      gone = true
    }
  }, [nest, may])
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
