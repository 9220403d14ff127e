import { useMemo } from 'react'
import type { JobView } from '../../app/state.ts'
import { type WayRow, wayNow, waysAsked } from '../../app/ways.ts'
import { sayMoney } from '../../core/buy/money.ts'
import { soldLength } from '../../core/buy/order-text.ts'
import { say } from '../../core/reading/show.ts'
import { chosenWay, type WayOffer } from '../../core/saw/offer.ts'
import type { Shop } from '../../core/shop.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { capital, count, saysOf, wayWords } from '../words.ts'

/** The ways of cutting side by side, and a key for each that lays the job out in that way. */
export function Ways({ view }: { view: JobView }) {
  const actions = useActions()
  const shop = useShop()
  const progress = useApp((state) => state.progress)
  const kept = useApp((state) => state.ways?.[view.id])
  const question = useMemo(() => waysAsked(view.job, { shop, progress }), [view.job, shop, progress])
  const why = whyNoChoice(
    progress.accepted[view.id] !== undefined,
    progress.made.some(({ job }) => job === view.id),
    (view.together ?? []).length > 0,
  )
  const ways = kept?.asked === question ? kept : undefined
  const rows = why === undefined ? (ways?.rows ?? []) : []
  const now = wayNow(view.job)
  // A way that asks for nothing else than square first is square first.
  const present = ways && !ways.working && !rows.some(({ way }) => way === now) ? 'square first' : now
  const alike = others.filter((way) => !rows.some((row) => row.way === way))
  const offers = rows.flatMap(({ comes }) => ('not' in comes ? [] : [comes]))
  const proposed = ways?.working ? undefined : chosenWay({}, shop, offers)
  return (
    <section className="ways" aria-labelledby="ways-head">
      <h3 id="ways-head">Ways of cutting</h3>
      {why !== undefined && <p>{why}</p>}
      {rows.length > 0 && (
        <ul className="ways-side-by-side">
          {rows.map((row) => (
            <Way
              key={row.way}
              row={row}
              present={row.way === present}
              proposed={row.way === proposed && proposed !== 'square first'}
              shop={shop}
              onChoose={() => void actions.editJob(view.id, { way: row.way })}
            />
          ))}
        </ul>
      )}
      {rows.length > 0 && !ways?.working && alike.length > 0 && (
        <p className="dim">
          {capital(alike.map((way) => wayWords[way]).join(' and '))}: the same as square first for these
          parts.
        </p>
      )}
      <p role="status">{why === undefined && ways?.working && 'Working it out …'}</p>
      {why === undefined && !ways && (
        <button type="button" onClick={() => void actions.compareWays(view.id)}>
          Compare the ways of cutting
        </button>
      )}
    </section>
  )
}

const others = ['from the stick', 'paired'] as const

/** Why the way cannot be chosen now. */
function whyNoChoice(accepted: boolean, cut: boolean, together: boolean): string | undefined {
  if (accepted) return 'This layout is accepted, so the way of cutting stays as it is.'
  if (cut) return 'Pieces of this job are cut, so the way of cutting stays as it is.'
  if (together)
    return 'Jobs that are bought together are cut in one way. To compare the ways, buy this job alone.'
  return undefined
}

function Way(props: {
  readonly row: WayRow
  readonly present: boolean
  /** It saves a stick, or what the shop asks of it. */
  readonly proposed: boolean
  readonly shop: Shop
  readonly onChoose: () => void
}) {
  const { row, present, proposed, shop } = props
  const { way, notes, comes } = row
  const possible = !('not' in comes)
  return (
    <li className={present ? 'way present' : 'way'}>
      <h4>{capital(wayWords[way])}</h4>
      {present && <p className="way-mark">This layout</p>}
      {proposed && <p className="way-mark">Proposed: it saves enough steel for this shop</p>}
      {possible ? (
        <ul>
          {figuresOf(comes, shop).map((figure) => (
            <li key={figure}>{figure}</li>
          ))}
        </ul>
      ) : (
        <p>Cannot be done. {comes.not}</p>
      )}
      {notes.map((note) => (
        <p key={note} className="dim">
          {note}
        </p>
      ))}
      {possible && !present && (
        <button type="button" aria-label={`Cut this way: ${wayWords[way]}`} onClick={props.onChoose}>
          Cut this way
        </button>
      )}
    </li>
  )
}

/** Steel first, then the work. */
function figuresOf({ sticks, cost, priced, drop, work, left }: WayOffer, shop: Shop): readonly string[] {
  const says = saysOf(shop)
  const steel = priced ? sayMoney(cost, shop.currency) : `${soldLength(cost, shop.reading)} bought`
  return [
    `${count(sticks, says.stick, says.sticks)}, ${steel}`,
    drop > 0 ? `${say(drop, shop.reading)} left in ${says.drops}` : `no ${says.drop} to keep`,
    count(work.cuts, 'cut'),
    count(work.heads, 'head change'),
    count(work.stops, 'stop move'),
    count(work.loads, 'load'),
    `about ${count(Math.round(work.minutes), 'minute')}`,
    ...(left > 0 ? [`${count(left, 'piece')} left to the hand`] : []),
  ]
}

/** A job that was set to another way and cannot be laid out so must have a way back. */
export function WayBack({ view }: { view: JobView }) {
  const actions = useActions()
  const accepted = useApp((state) => state.progress.accepted[view.id] !== undefined)
  const way = wayNow(view.job)
  if (accepted || way === 'square first') return null
  return (
    <section className="ways" aria-labelledby="way-back-head">
      <h3 id="way-back-head">Ways of cutting</h3>
      <p>This job is set to be cut: {wayWords[way]}.</p>
      <button type="button" onClick={() => void actions.editJob(view.id, { way: 'square first' })}>
        Cut square first instead
      </button>
    </section>
  )
}
