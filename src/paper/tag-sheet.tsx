import type { BenchCut, Plan } from '../core/plan-shapes.ts'
import type { Shop } from '../core/shop.ts'
import { flow } from './flow.ts'
import { Heading, mm, numbered, orderName } from './page.tsx'
import { bodyHigh, bodyWide, type PageSize } from './size.ts'
import { StickPicture } from './stick-picture.tsx'
import { type TagStrip, tagBlocks } from './tags.ts'

/** Tags for every stick and every drop that is kept: to be cut out and tied or taped on. */
export function tagSheet(plan: Plan, cuts: readonly BenchCut[], shop: Shop, page: PageSize) {
  const pages = flow(tagBlocks(plan, cuts, shop, page), bodyHigh(page))
  return numbered(
    { page, job: orderName(plan), title: 'Tags', foot: 'Cut out. Paint the mark on the steel too.' },
    pages,
    (blocks) =>
      blocks.map(({ head, again, strips }) => (
        <article key={head}>
          <Heading text={head} again={again} />
          {strips.map((strip) => (
            <Tags
              key={strip.kind === 'stick' ? strip.tag.stick.id : strip.tags[0]?.id}
              strip={strip}
              shop={shop}
              page={page}
            />
          ))}
        </article>
      )),
  )
}

interface TagProps {
  readonly strip: TagStrip
  readonly shop: Shop
  readonly page: PageSize
}

function Tags({ strip, shop, page }: TagProps) {
  const wide = bodyWide(page)
  if (strip.kind === 'drops')
    return (
      <div className="tag-pair">
        {strip.tags.map(({ id, length, section, from }) => (
          <div className="tag" key={id} style={{ width: mm(wide / 2 - 2) }}>
            <p className="wall-mark">{id}</p>
            <p className="wall-mark">{length}</p>
            <p>{section}</p>
            <p>{from}</p>
          </div>
        ))}
      </div>
    )
  const { stick, section, title, pieces, rest } = strip.tag
  return (
    <div className="tag">
      <p className="wall-mark">{stick.id}</p>
      <p>{title}</p>
      <StickPicture
        stick={stick}
        section={section}
        wide={wide - 10}
        drop={shop.says === 'stick and drop' ? 'drop' : 'offcut'}
      />
      <p>{pieces}</p>
      <p>{rest}</p>
    </div>
  )
}
