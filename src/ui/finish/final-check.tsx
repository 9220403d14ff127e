import type { LastTime } from '../../core/finish/last-time.ts'
import { showLength, unitOf } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { MmField } from '../fields/length-field.tsx'
import { LengthText } from '../fields/length-text.tsx'
import { TakeTable } from '../fields/take-table.tsx'
import { fine, unseen } from '../fitup/closing-words.ts'
import type { Copy } from './finish.tsx'
import { finalCheckOut } from './tables-out.ts'

/** Final check and record of this copy: asked, planned, measured, side by side. */
export function FinalCheck(props: {
  readonly of: Copy
  readonly shop: Shop
  readonly last: LastTime | undefined
}) {
  const { of, shop, last } = props
  const { plan, view, copy } = of
  const { reading } = shop
  return (
    <section aria-labelledby="finish-check">
      <h2 id="finish-check">Final check</h2>
      <p className="dim">
        {view.job.name}
        {plan.quantity > 1 ? `, copy ${copy} of ${plan.quantity}` : ''}. What is measured stays with the job.
      </p>
      {plan.sizes.map((size) => {
        const name = `size:${size.name}`
        const got = of.measured(name)
        const off = got === undefined ? undefined : got - size.exact
        const before = last?.measured[name]
        return (
          <div className="finish-size" key={size.name}>
            <p>
              <b>{size.name}</b>
              <br />
              {size.asked ? 'Asked' : 'Follows'} <LengthText of={size.printed.exact} />, planned{' '}
              <LengthText of={showLength(size.built, reading)} lies />
              {size.tacked !== undefined && (
                <>
                  , tacked <LengthText of={showLength(size.tacked, reading)} lies />
                </>
              )}
              {before && (
                <span className="last-time">
                  <br />
                  <b>Last time:</b> {before.map((mm) => fine(mm, reading)).join(', ')}
                </span>
              )}
            </p>
            <MmField
              label={`${size.name}, measured`}
              optional
              value={got}
              reading={reading}
              possible={{ over: 0 }}
              onChange={(mm) => of.onGauge(name, mm)}
            />
            <p className={off === undefined ? 'state' : 'state cut'}>
              {off === undefined
                ? 'to measure'
                : Math.abs(off) < unseen(reading)
                  ? 'as asked'
                  : `${fine(Math.abs(off), reading)} ${off > 0 ? 'more' : 'less'} than ${size.asked ? 'asked' : 'it follows'}`}
            </p>
          </div>
        )
      })}
      {plan.sizes.length > 0 && (
        <TakeTable
          name={plan.name}
          what="final check"
          table={() => finalCheckOut(plan, reading, of.measured)}
        />
      )}
      {plan.sizes.length === 0 && (
        <p>
          This job asks for no size of the whole: its pieces were measured at the saw ({unitOf(reading)}).
        </p>
      )}
    </section>
  )
}
