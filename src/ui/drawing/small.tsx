import { memo, useMemo } from 'react'
import type { Frame } from '../../core/frame/frame.ts'
import { Shapes } from './shape.tsx'
import { backToFront } from './shapes.ts'
import { fitIn } from './sheet.ts'
import { solidsOf } from './solid.ts'
import { together, turned } from './view.ts'

/** More members than this are a list, not a thing to look at: the picture shows the first of them. */
const most = 80

/** The frame itself, small, from the front, right and above. For cards; says nothing to a screen reader. */
export const SmallDrawing = memo(function SmallDrawing({ frame }: { frame: Frame }) {
  const seen = useMemo(() => {
    const drawn = { ...frame, members: frame.members.slice(0, most) }
    return backToFront(solidsOf(drawn), turned(28, 34))
  }, [frame])
  if (seen.length === 0) return null
  const width = 240
  const height = 150
  const place = fitIn(together(seen.map(({ extent }) => extent)), {
    x: 8,
    y: 8,
    width: width - 16,
    height: height - 16,
  })
  return (
    <svg className="drawing small" viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <Shapes seen={seen} place={place} />
    </svg>
  )
})
