import { type KeyboardEvent, type PointerEvent, useMemo, useRef, useState } from 'react'
import { norm, sub } from '../../core/geometry/vec3.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import { landedIn, landedLines } from './landed.ts'
import { marksById, marksOf } from './marks.ts'
import { LandedMarks, Marks, Shapes } from './shape.tsx'
import { backToFront } from './shapes.ts'
import { solidsOf } from './solid.ts'
import { onPage, turned } from './view.ts'
import { useWidth } from './width.ts'

/** Degrees that one press of a button turns, and that one px of a drag turns. */
const press = 15
const perPx = 0.5

/** The way in which the frame goes under a finger that is drawn the same way. */
const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [press, 0],
  ArrowRight: [-press, 0],
  ArrowUp: [0, -press],
  ArrowDown: [0, press],
}

interface Look {
  readonly yaw: number
  readonly pitch: number
}

const start: Look = { yaw: 30, pitch: 25 }

const by = (look: Look, yaw: number, pitch: number): Look => ({
  yaw: (look.yaw + yaw + 360) % 360,
  // Beyond straight down or level from below, up and down would change places.
  pitch: Math.max(-90, Math.min(90, look.pitch + pitch)),
})

/** The frame from any side: dragged with a finger, or turned with the arrow keys or the buttons. Parallel light, to scale. */
export function Turnable(props: {
  readonly plan: Plan
  readonly chosen: string | null
  readonly onChoose: (mark: string) => void
  readonly high?: number
}) {
  const { plan } = props
  const [box, width] = useWidth<HTMLDivElement>(760)
  const high = props.high ?? 420
  const [look, setLook] = useState(start)
  const drag = useRef<{ x: number; y: number; moved: boolean } | null>(null)
  const solids = useMemo(() => solidsOf(plan.frame), [plan.frame])
  const markOf = useMemo(() => marksById(plan), [plan])
  // One scale for all sides, so that turning does not swell or shrink it: the sphere round it just fits.
  const sphere = useMemo(() => {
    const points = solids.flatMap((solid) => solid.points)
    const middle = [0, 1, 2].map((axis) => {
      const values = points.map((point) => point[axis]!)
      return (Math.min(...values) + Math.max(...values)) / 2
    }) as unknown as readonly [number, number, number]
    return { middle, radius: Math.max(...points.map((point) => norm(sub(point, middle))), 1) }
  }, [solids])
  const landed = useMemo(() => landedIn(plan.frame), [plan.frame])
  const view = turned(look.yaw, look.pitch)
  const seen = useMemo(() => backToFront(solids, turned(look.yaw, look.pitch)), [solids, look])
  const scale = (Math.min(width, high) / 2 - 8) / sphere.radius
  const [mx, my] = onPage(view, sphere.middle)
  const place = { scale, x: width / 2 - mx * scale, y: high / 2 + my * scale }

  const move = (event: PointerEvent) => {
    const last = drag.current
    if (!last) return
    // Let go elsewhere.
    if (event.buttons === 0) {
      drag.current = null
      return
    }
    const dx = event.clientX - last.x
    const dy = event.clientY - last.y
    if (!last.moved && Math.hypot(dx, dy) < 6) return
    // Not before: what is captured at the start takes the tap from the part under it.
    if (!last.moved) event.currentTarget.setPointerCapture?.(event.pointerId)
    drag.current = { x: event.clientX, y: event.clientY, moved: true }
    setLook((old) => by(old, -dx * perPx, dy * perPx))
  }
  const keys = (event: KeyboardEvent) => {
    const turn = arrows[event.key]
    if (!turn || event.altKey || event.ctrlKey || event.metaKey) return
    event.preventDefault()
    setLook((old) => by(old, ...turn))
  }
  return (
    <div className="turnable">
      <div
        className="drawing-box"
        ref={box}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it is turned with the arrow keys
        tabIndex={0}
        role="application"
        aria-label="The frame: turn it with the arrow keys"
        onKeyDown={keys}
      >
        <svg
          className="drawing turned"
          width={width}
          height={high}
          viewBox={`0 0 ${width} ${high}`}
          role="img"
          aria-label={`${plan.name}, seen from ${Math.round(look.yaw)}° round and ${Math.round(look.pitch)}° above`}
          onPointerDown={(event) => {
            drag.current = { x: event.clientX, y: event.clientY, moved: false }
          }}
          onPointerMove={move}
          onPointerUp={() => {
            drag.current = null
          }}
          onPointerCancel={() => {
            drag.current = null
          }}
        >
          <Shapes
            seen={seen}
            place={place}
            chosen={({ id }) => markOf.get(id) !== undefined && markOf.get(id) === props.chosen}
            onChoose={({ id }) => {
              const mark = markOf.get(id)
              return mark === undefined ? undefined : () => props.onChoose(mark)
            }}
          />
          <LandedMarks
            landed={landedLines(landed, seen, view)}
            place={place}
            chosen={(id) => markOf.get(id) !== undefined && markOf.get(id) === props.chosen}
          />
          <Marks marks={marksOf(plan, seen, place)} chosen={props.chosen} onChoose={props.onChoose} />
        </svg>
      </div>
      <div className="keys-row">
        <button type="button" aria-label="Turn left" onClick={() => setLook(by(look, press, 0))}>
          ↶
        </button>
        <button type="button" aria-label="Turn right" onClick={() => setLook(by(look, -press, 0))}>
          ↷
        </button>
        <button
          type="button"
          aria-label="Tip toward you, more from above"
          onClick={() => setLook(by(look, 0, press))}
        >
          ↧
        </button>
        <button
          type="button"
          aria-label="Tip away, more from below"
          onClick={() => setLook(by(look, 0, -press))}
        >
          ↥
        </button>
        <button type="button" onClick={() => setLook({ yaw: 0, pitch: 0 })}>
          Front
        </button>
        <button type="button" onClick={() => setLook({ yaw: 90, pitch: 0 })}>
          Side
        </button>
        <button type="button" onClick={() => setLook({ yaw: 0, pitch: 90 })}>
          Above
        </button>
      </div>
    </div>
  )
}
