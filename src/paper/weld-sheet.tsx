import type { Plan } from '../core/plan-shapes.ts'
import { flow } from './flow.ts'
import { Box, Heading, numbered } from './page.tsx'
import { bodyHigh, type PageSize } from './size.ts'
import { type WeldRow, weldBlocks } from './weld.ts'

const foot = 'Helmet, air, no fire nearby. Galvanized: strip it first.'

/** The weld sheet: one for each copy of the order. */
export function weldSheet(plan: Plan, page: PageSize) {
  const pages = flow(weldBlocks(plan, page), bodyHigh(page))
  return numbered({ page, job: plan.name, title: 'Weld sheet', foot }, pages, (blocks) =>
    blocks.map(({ head, again, strips }, block) => (
      // biome-ignore lint/suspicious/noArrayIndexKey: blocks never move
      <article key={block}>
        <Heading text={head} again={again} />
        {strips.map((row, line) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: rows never move
          <Row key={line} row={row} />
        ))}
      </article>
    )),
  )
}

function Row({ row }: { readonly row: WeldRow }) {
  if (row.boxes.length === 0) return <p className="weld-alone">{row.text}</p>
  if (row.boxes.length === 1 && row.boxes[0] === '')
    return (
      <p className="weld-alone">
        <Box />
        <span>{row.text}</span>
      </p>
    )
  return (
    <div className="weld-row">
      <p>{row.text}</p>
      <div className="weld-boxes">
        {row.boxes.map((word, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: boxes never move
          <span key={at}>
            <Box /> {word}
          </span>
        ))}
      </div>
    </div>
  )
}
