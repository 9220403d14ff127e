import type { BenchCut, Plan } from '../core/plan-shapes.ts'
import type { Shop } from '../core/shop.ts'
import { type AtCut, lyingAtCuts } from '../ui/drawing/lying.ts'
import { BenchPicture } from './bench-picture.tsx'
import { flow } from './flow.ts'
import { Figure, mm, numbered, orderName } from './page.tsx'
import { PiecePicture } from './piece-picture.tsx'
import { SidePicture } from './side-picture.tsx'
import { bodyHigh, bodyWide, type PageSize } from './size.ts'
import { StickPicture } from './stick-picture.tsx'
import { startBlock, type WallHead, wallBlocks } from './wall.ts'
import { inLine, thirdFigure } from './wall-figures.ts'
import { leftBlocks } from './wall-left.ts'
import { wordsWide } from './wall-spread.ts'
import { boxHigh, labelWide, type WallStrip } from './wall-strips.ts'

const foot = 'Guard, eyes, ears. The saw’s manual comes first.'

/** The wall cut sheet, readable from 2 m: one block for each set-up, none parted over two pages where it fits on one. */
export function wallSheet(plan: Plan, cuts: readonly BenchCut[], shop: Shop, page: PageSize) {
  const lying = lyingAtCuts(plan.run!, plan.nest?.sections.flatMap(({ sticks }) => sticks) ?? [])
  const pages = flow(
    [startBlock(cuts, shop, page), ...wallBlocks(plan, cuts, shop, page), ...leftBlocks(plan, shop, page)],
    bodyHigh(page),
  )
  return numbered({ page, job: orderName(plan), title: 'Cut sheet', foot }, pages, (blocks) =>
    blocks.map(({ head, again, strips }) => (
      <article className="wall-block" key={head.setting?.number ?? head.stage}>
        <Head head={head} again={again} lying={lying} page={page} />
        {strips.map((strip, row) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: rows never move
          <Row key={row} strip={strip} shop={shop} page={page} />
        ))}
      </article>
    )),
  )
}

interface HeadProps {
  readonly head: WallHead
  readonly again: boolean
  readonly lying: ReadonlyMap<string, AtCut>
  readonly page: PageSize
}

function Head({ head, again, lying, page }: HeadProps) {
  const { setting, stage, words } = head
  if (!setting)
    return (
      <div className="wall-head">
        <p className="wall-stage">{stage}</p>
        {words.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </div>
    )
  const { setUp, number, drawn } = setting
  const third = thirdFigure(setUp)
  const line = inLine(setUp, page)
  return (
    <div className="wall-head">
      <div className="wall-figures">
        <span className="wall-number">{number}</span>
        <div className="wall-set">
          <div className="wall-pair">
            <div>
              <div className="wall-label">Miter</div>
              <div className="wall-great">
                <Figure text={setUp.printed.miter.text} inLine={line} />
              </div>
            </div>
            <div>
              <div className="wall-label">Stop, {setUp.stopSide}</div>
              <div className="wall-great">
                <Figure text={setUp.printed.stop.text} unit={setUp.printed.stop.unit} inLine={line} />
              </div>
            </div>
          </div>
          {third && (
            <>
              <div className="wall-label">{third.label}</div>
              <div className="wall-great">
                <Figure text={third.text} />
              </div>
            </>
          )}
        </div>
      </div>
      <div className="wall-below">
        {drawn.map((cut, at) => {
          const lies = lying.get(cut.product.id)
          return (
            lies && (
              <BenchPicture
                key={cut.product.id}
                at={lies}
                setUp={setUp}
                name={`${cut.product.mark ?? ''}${drawn.length > 1 ? 'ab'[at] : ''}`}
                long={cut.loaded === cut.stick}
              />
            )
          )
        })}
        {third && drawn.length === 1 && <SidePicture setUp={setUp} />}
        <p style={{ width: mm(wordsWide(drawn, page)) }}>
          <b>
            {stage}
            {again ? ', continued' : ''}.
          </b>{' '}
          {words.join(' ')}
        </p>
      </div>
    </div>
  )
}

function Row(props: { readonly strip: WallStrip; readonly shop: Shop; readonly page: PageSize }) {
  const { strip, shop, page } = props
  if (strip.kind === 'load')
    return (
      <>
        <p className="wall-load">{strip.text}</p>
        {strip.stick && strip.section && (
          <StickPicture
            stick={strip.stick}
            section={strip.section}
            wide={bodyWide(page)}
            drop={shop.says === 'stick and drop' ? 'drop' : 'offcut'}
          />
        )}
      </>
    )
  if (strip.kind === 'words') return <p>{strip.text}</p>
  if (strip.kind === 'piece')
    return (
      <div className="wall-row">
        <span className="wall-mark" style={{ width: mm(24) }}>
          {strip.part.mark}
        </span>
        <PiecePicture part={strip.part} />
      </div>
    )
  return (
    <div className="wall-row" style={{ height: mm(boxHigh + 2) }}>
      <span className="wall-mark" style={{ width: mm(labelWide(strip.from)) }}>
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
