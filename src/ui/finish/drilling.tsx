import type { ReactNode } from 'react'
import { drillSpeed, tappingsOf } from '../../core/finish/tapping.ts'
import type { Frame } from '../../core/frame/frame.ts'
import { showLength } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { sayEngagement } from '../../core/thread.ts'
import { LengthText } from '../fields/length-text.tsx'
import { TakeTable } from '../fields/take-table.tsx'
import { drillingOut } from './tables-out.ts'

/** Drill and tap: a row for each kind of tapped hole. */
export function Drilling(props: {
  /** Name of the job. */
  readonly job: string
  readonly frame: Frame
  readonly shop: Shop
  readonly children: ReactNode
}) {
  const rows = tappingsOf(props.frame)
  if (rows.length === 0) return null
  return (
    <section aria-labelledby="finish-drill">
      <h2 id="finish-drill">Drill and tap</h2>
      <p className="warning">
        Clamp the work before drilling; no gloves, sleeves or long hair near the drill; ease off as it breaks
        through; chips away with a brush.
      </p>
      {rows.map(({ thread, holes, thickness, diameters, countersink, rpm }) => (
        <dl className="finish-figures" key={`${thread.name} ${thickness}`}>
          <div>
            <dt>Tap</dt>
            <dd>
              {thread.name}, {holes} {holes === 1 ? 'hole' : 'holes'}
            </dd>
          </div>
          <div>
            <dt>Drill</dt>
            <dd>{thread.drillName}</dd>
          </div>
          <div>
            <dt>Turns a minute</dt>
            <dd>about {rpm}</dd>
          </div>
          <div>
            <dt>Countersink to</dt>
            <dd>
              <LengthText of={showLength(countersink, props.shop.reading)} />
            </dd>
          </div>
          <div>
            <dt>In the plate</dt>
            <dd>
              {sayEngagement(thread.name, thickness, props.shop.reading)}
              {diameters < 1 ? ': weld a nut inside or use a thicker cap' : ''}
            </dd>
          </div>
        </dl>
      ))}
      <p className="dim">
        Speed for a high-speed-steel drill in mild steel, {drillSpeed} ft/min (24 m/min). Drill sizes:{' '}
        {[...new Set(rows.map(({ thread }) => thread.source))].join('; ')}.
      </p>
      <TakeTable name={props.job} what="drilling" table={() => drillingOut(rows, props.shop.reading)} />
      {props.children}
    </section>
  )
}
