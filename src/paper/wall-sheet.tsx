import type { BenchCut, Plan } from '../core/plan-shapes.ts'
import type { Shop } from '../core/shop.ts'
import { flow } from './flow.ts'
import { Figure, mm, Page } from './page.tsx'
import { bodyHigh, type PageSize } from './size.ts'
import { boxHigh, labelWide, thirdFigure, type WallHead, type WallStrip, wallBlocks } from './wall.ts'

const foot = 'Guard, eyes, ears. The saw’s manual comes first.'

/** The wall cut sheet, readable from 2 m: one block for each set-up. */
export function wallSheet(plan: Plan, cuts: readonly BenchCut[], shop: Shop, page: PageSize) {
  const pages = flow(wallBlocks(plan, cuts, shop, page), bodyHigh(page))
  const job = plan.quantity > 1 ? `${plan.name} × ${plan.quantity}` : plan.name
  return pages.map((blocks, at) => (
    <Page
      // biome-ignore lint/suspicious/noArrayIndexKey: pages have no other name than their number
      key={at}
      page={page}
      job={job}
      title="Cut sheet"
      number={at + 1}
      of={pages.length}
      foot={foot}
    >
      {blocks.map(({ head, again, strips }) => (
        <article className="wall-block" key={`${head.number}`}>
          <Head head={head} again={again} />
          {strips.map((strip, row) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows never move
            <Row key={row} strip={strip} />
          ))}
        </article>
      ))}
    </Page>
  ))
}

function Head({ head, again }: { readonly head: WallHead; readonly again: boolean }) {
  const { setUp } = head
  const third = thirdFigure(setUp)
  return (
    <div className="wall-head">
      <div className="wall-figures">
        <span className="wall-number">{head.number}</span>
        <div className="wall-set">
          <div className="wall-stage">
            {head.stage}
            {again ? ', continued' : ''}
          </div>
          <div className="wall-pair">
            <div>
              <div className="wall-label">Miter</div>
              <div className="wall-great">
                <Figure text={setUp.printed.miter.text} />
              </div>
            </div>
            <div>
              <div className="wall-label">Stop, {setUp.stopSide}</div>
              <div className="wall-great">
                <Figure text={setUp.printed.stop.text} unit={setUp.printed.stop.unit} />
              </div>
            </div>
            {third && (
              <div>
                <div className="wall-label">{third.label}</div>
                <div className="wall-great">
                  <Figure text={third.text} />
                </div>
              </div>
            )}
          </div>
        </div>
      </div>
      {head.words.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </div>
  )
}

function Row({ strip }: { readonly strip: WallStrip }) {
  if (strip.kind === 'load') return <p className="wall-load">{strip.text}</p>
  return (
    <div className="wall-row" style={{ height: mm(boxHigh + 2) }}>
      <span className="wall-mark" style={{ width: mm(labelWide) }}>
        {strip.mark}
        {strip.from && <span className="wall-from"> from {strip.from}</span>}
      </span>
      {strip.numbers.map((number, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: boxes never move
        <span key={at} className="wall-tick" style={{ width: mm(strip.wide), height: mm(boxHigh) }}>
          {number}
        </span>
      ))}
    </div>
  )
}
