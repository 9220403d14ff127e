import { useState } from 'react'
import type { SteelChange } from '../../app/difference.ts'
import type { Offer } from '../../app/rest.ts'
import type { Apart } from '../../app/same-stick.ts'
import type { JobView } from '../../app/state.ts'
import { say } from '../../core/reading/show.ts'
import { sectionName } from '../../core/section/name.ts'
import type { Shop } from '../../core/shop.ts'
import { useActions, useShop } from '../app.ts'
import { capital, count, saysOf, wayWords } from '../words.ts'
import { NestWork } from './waiting.tsx'

/** Planning what is left: asked for, under way, or offered to be looked at before it is taken. */
export function Rest({ view, onDone }: { view: JobView; onDone?: () => void }) {
  const actions = useActions()
  const shop = useShop()
  const [recut, setRecut] = useState(true)
  const { offer, nesting, spareSteel } = view
  if (nesting.state === 'working')
    return <NestWork nesting={nesting} usable={false} onStop={() => actions.stopSolving(view.id)} />
  if (offer)
    return (
      <Offered
        offer={offer}
        view={view}
        shop={shop}
        onAccept={() => {
          void actions.acceptRest(view.id)
          onDone?.()
        }}
        onDrop={() => {
          actions.dropRest(view.id)
          onDone?.()
        }}
      />
    )
  const spares = spareSteel.map(({ id }) => id)
  return (
    <>
      {nesting.state === 'failed' && (
        <p className="problem">
          <b>No way was found for the rest.</b> {nesting.text}
        </p>
      )}
      {spares.length > 0 && (
        <label className="flag recut">
          <input type="checkbox" checked={recut} onChange={(event) => setRecut(event.target.checked)} />
          <span>
            Recut the spare pieces where they serve: {spareSteel.map(({ label }) => label).join(', ')}
          </span>
        </label>
      )}
      <button
        type="button"
        className="go"
        onClick={() => void actions.planRest(view.id, recut ? spares : [])}
      >
        Plan what is left
      </button>
    </>
  )
}

/** What the new plan changes against the one before: nothing is moved that is cut already. */
function Offered(props: {
  readonly offer: Offer
  readonly view: JobView
  readonly shop: Shop
  readonly onAccept: () => void
  readonly onDrop: () => void
}) {
  const { offer, view, shop } = props
  const says = saysOf(shop)
  const { changed, same, buy, saved } = offer.difference
  const recut = view.spareSteel.filter(({ id }) => offer.recut.includes(id)).map(({ label }) => label)
  return (
    <section className="rest-offer" aria-label="The new plan of what is left">
      <h2>The new plan of what is left</h2>
      {buy.length > 0 ? (
        <p className="rest-buy must">
          <b>
            To buy:{' '}
            {buy
              .map(
                ({ count: many, length, section }) =>
                  `${count(many, says.stick, says.sticks)} of ${say(length, shop.reading)}, ${sectionName(section, shop.reading)}`,
              )
              .join('; ')}
            .
          </b>
        </p>
      ) : (
        <p className="rest-buy">
          <b>Nothing has to be bought.</b>
          {saved > 0 && ` ${count(saved, says.stick, says.sticks)} less than before.`}
        </p>
      )}
      {[...new Set(offer.apart.map((one) => apartWords(one, says)))].map((words) => (
        <p key={words} className="warning">
          {words}
        </p>
      ))}
      {recut.length > 0 && <p>Cut from spare pieces: {recut.join(', ')}.</p>}
      <table className="rest-changes">
        <thead>
          <tr>
            <th scope="col">{capital(says.stick)}</th>
            <th scope="col">Before</th>
            <th scope="col">Now</th>
          </tr>
        </thead>
        <tbody>
          {changed.map((one) => (
            <tr key={one.stick}>
              <th scope="row">
                <b>{one.stick}</b> <span className="dim">{steelWords(one, shop)}</span>
              </th>
              <td>{one.before || 'nothing'}</td>
              <td>
                <b>{one.after || 'nothing more'}</b>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="dim">
        {same > 0 && `${count(same, says.stick, says.sticks)} as before. `}What is cut already stays as it is.
        Cut {[...new Set(offer.nest.sections.map(({ way }) => wayWords[way]))].join(' and ')}.
      </p>
      <div className="state-keys">
        <button type="button" className="go" onClick={props.onAccept}>
          Work by the new plan
        </button>
        <button type="button" onClick={props.onDrop}>
          Not now
        </button>
      </div>
    </section>
  )
}

/** Why pieces do not come from the stick that they were wanted from. */
function apartWords({ open, from, why }: Apart, says: { readonly stick: string }): string {
  const pieces = open.map(({ mark, count: many }) => (many > 1 ? `${mark} × ${many}` : mark)).join(' and ')
  const them = open.reduce((sum, { count: many }) => sum + many, 0) > 1 ? 'them' : 'it'
  const left =
    why === 'too short'
      ? `What is left of it is too short for ${them}: `
      : why === 'nothing left'
        ? 'Nothing of it is left: '
        : ''
  return (
    `${pieces} ${them === 'it' ? 'was' : 'were'} wanted from the same ${says.stick} as what is cut from ` +
    `${from.join(' and ')}. ${left}${left ? 'now' : 'Now'} from another ${says.stick}.`
  )
}

function steelWords({ kind, length }: SteelChange, shop: Shop): string {
  const long = say(length, shop.reading)
  if (kind === 'begun') return `what is left of it, ${long}`
  return kind === 'rack' ? `from the rack, ${long}` : long
}

/** Whether the accepted plan no longer gives all, or another one of what is left is in the making. */
export const isLacking = ({ missing, short, offer, nesting }: JobView): boolean =>
  missing.length > 0 ||
  short.length > 0 ||
  offer !== undefined ||
  (nesting.state === 'working' && nesting.rest !== true)

/**
 * What the accepted plan no longer gives, in a line over the keys, with the key to make it good: the work may go on
 * meanwhile. `seen`: the plan of what is left is looked at, in the place of the set-up.
 */
export function Lacking(props: { view: JobView; seen: boolean; onSeen: (seen: boolean) => void }) {
  const { view, seen, onSeen } = props
  const { missing, short, nesting } = view
  const shop = useShop()
  const says = saysOf(shop)
  return (
    <section className={seen ? 'lacking seen' : 'lacking'} role="status">
      <div className="lacking-words">
        {missing.length > 0 && (
          <p>
            <b>
              <span className="state miscut">miscut</span> {missing.join(', ')}{' '}
              {missing.length === 1 ? 'has' : 'have'} no steel in this plan.
            </b>
          </p>
        )}
        {short.map(({ stick, lacks }) => (
          <p key={stick}>
            <b>
              {capital(says.stick)} {stick} is {say(lacks, shop.reading)} too short for all that is planned on
              it.
            </b>
          </p>
        ))}
        {!seen && nesting.state === 'failed' && <p>No way was found for the rest.</p>}
        {!seen && <Ready view={view} shop={shop} />}
      </div>
      {seen ? <Rest view={view} onDone={() => onSeen(false)} /> : <RestKey view={view} onSeen={onSeen} />}
    </section>
  )
}

/** How far the plan of what is left is, in a few words. */
function Ready({ view: { offer, nesting }, shop }: { view: JobView; shop: Shop }) {
  const says = saysOf(shop)
  if (nesting.state === 'working') return <p className="ready">A new plan of what is left is worked out.</p>
  if (!offer) return null
  const many = offer.difference.buy.reduce((sum, one) => sum + one.count, 0)
  const buys = many === 0 ? 'nothing has to be bought' : `${count(many, says.stick, says.sticks)} to buy`
  return <p className="ready">A new plan of what is left is ready: {buys}.</p>
}

function RestKey({ view, onSeen }: { view: JobView; onSeen: (seen: boolean) => void }) {
  const actions = useActions()
  const { offer, nesting, spareSteel } = view
  if (nesting.state === 'working')
    return (
      <button type="button" onClick={() => actions.stopSolving(view.id)}>
        Stop
      </button>
    )
  const asks = spareSteel.length > 0 || nesting.state === 'failed'
  return (
    <button
      type="button"
      className="see"
      onClick={() => (offer || asks ? onSeen(true) : void actions.planRest(view.id, []))}
    >
      {offer ? 'See the new plan' : 'Plan what is left'}
    </button>
  )
}
