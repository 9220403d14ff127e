import type { Plan } from '../core/plan-shapes.ts'
import type { Shop } from '../core/shop.ts'
import { frameSketch } from '../ui/drawing/frame-sketch.ts'
import { SketchPicture } from '../ui/drawing/sketch-picture.tsx'
import { orderName, Page } from './page.tsx'
import { bodyHigh, bodyWide, type PageSize } from './size.ts'

/** The whole frame on one page: from above, from the front and from the right, with marks and dimensions. */
export function frameSheet(plan: Plan, shop: Shop, page: PageSize) {
  const room = { wide: bodyWide(page), high: bodyHigh(page) - 4 }
  return [
    <Page
      key="frame"
      page={page}
      job={orderName(plan)}
      title="Drawing"
      number={1}
      of={1}
      foot="To scale. Dashed: where one part lands on another."
    >
      <SketchPicture
        pieces={[frameSketch(plan, shop.reading, room)]}
        perMm={1}
        unit="mm"
        label={`${plan.name} from above, from the front and from the right`}
      />
    </Page>,
  ]
}
