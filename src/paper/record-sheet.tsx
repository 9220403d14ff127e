import { sayTime } from '../app/said-time.ts'
import { buildRecord, type RecordSection } from '../core/finish/record.ts'
import type { Plan } from '../core/plan-shapes.ts'
import type { Shop } from '../core/shop.ts'
import { type Block, flow } from './flow.ts'
import { Heading, Page } from './page.tsx'
import type { SoFar } from './sheets.ts'
import { bodyHigh, bodyWide, lineHigh, linesOf, type PageSize } from './size.ts'

// The build record on paper: what is known of each copy, and a line to fill in by hand where a figure is still open.

const line = '________'

/** Columns that a hand may still fill in; the others are left out where nothing is known. */
const byHand: readonly string[] = ['measured', 'off', 'minutes']

const rowText = ([name = '', ...cells]: readonly string[], columns: RecordSection['columns']): string => {
  const said = cells.flatMap((cell, at) => {
    const column = columns?.[at] ?? ''
    if (cell === '' && !byHand.includes(column)) return []
    return [`${column} ${cell === '' ? line : cell}`.trim()]
  })
  return `${name}: ${said.join(', ')}`
}

/** Copies that anything was done on; where there is none, one sheet to fill in by hand. */
export function copiesDone({ job, facts }: SoFar, quantity: number): readonly number[] {
  const copies = new Set(
    facts.flatMap((fact) => (fact.job === job.id && fact.copy !== undefined ? [fact.copy] : [])),
  )
  const done = [...copies].filter((copy) => copy <= quantity).sort((a, b) => a - b)
  return done.length > 0 ? done : [1]
}

export function recordBlocks(
  plan: Plan,
  shop: Shop,
  page: PageSize,
  soFar: SoFar,
  copy: number,
): Block<string, string>[] {
  const wide = bodyWide(page)
  const sections = buildRecord({ plan, shop, copy, sayTime, ...soFar })
  const hand = { title: 'By hand', rows: [line, line].map((blank) => ['Note', blank.repeat(4)]) }
  return [...sections, hand].map(({ title, rows, ...section }) => ({
    head: { high: linesOf(title, wide, 'bold') * lineHigh + 4, what: title },
    strips: rows.map((row) => {
      const what = rowText(row, 'columns' in section ? section.columns : undefined)
      return { high: linesOf(what, wide) * lineHigh + 2, what }
    }),
  }))
}

/** The build record, each copy on pages of its own. */
export function recordSheet(plan: Plan, shop: Shop, page: PageSize, soFar: SoFar) {
  const all = copiesDone(soFar, plan.quantity).flatMap((copy) => {
    const title = plan.quantity > 1 ? `Build record, copy ${copy} of ${plan.quantity}` : 'Build record'
    const pages = flow(recordBlocks(plan, shop, page, soFar, copy), bodyHigh(page))
    return pages.map((blocks, at) => ({ title, blocks, number: at + 1, of: pages.length }))
  })
  return all.map(({ title, blocks, number, of }) => (
    <Page
      key={`${title} ${number}`}
      page={page}
      job={plan.name}
      title={title}
      number={number}
      of={of}
      foot="Keep it with the job: the next one begins with it."
    >
      {blocks.map(({ head, again, strips }) => (
        <article key={head}>
          <Heading text={head} again={again} />
          {strips.map((text, row) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows never move
            <p key={row} className="record-row">
              {text}
            </p>
          ))}
        </article>
      ))}
    </Page>
  ))
}
