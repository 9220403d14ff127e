import { type PointerEvent, useRef, useState } from 'react'
import type { Draft } from '../../core/draft.ts'
import type { Result } from '../../core/result.ts'
import { inch, type Mm } from '../../core/units.ts'

/** How a size is tried in the drawing, and kept. */
export interface Resize {
  readonly units: 'in' | 'mm'
  /** The job with this size, as far as it is drawn. */
  readonly draft: (field: string, mm: Mm) => Result<Draft>
  readonly keep: (field: string, mm: Mm) => Promise<void>
}

/** A size that is being dragged. */
export interface Dragged {
  readonly field: string
  readonly mm: Mm
  /** Height of the drawing before, px: what stands below it keeps its place. */
  readonly high: number
  /** The last that could be built of what was dragged through. */
  readonly good?: { readonly mm: Mm; readonly draft: Draft }
  /** Why it cannot be built as it stands. */
  readonly problem?: string
}

/** A dragged size is a whole number of these: one px of a drawing is more than a finer one. Finer is typed. */
export const dragStep: Readonly<Record<'in' | 'mm', Mm>> = { in: inch / 4, mm: 5 }

/** Px that a finger trembles in a tap. */
const tremble = 6

interface Grab {
  readonly field: string
  readonly mm: Mm
  readonly scale: number
  readonly upright: boolean
  readonly x: number
  readonly y: number
  moved: boolean
}

/** The size after so many px along its line, in whole steps, one at least. */
export function draggedTo(mm: Mm, px: number, scale: number, units: 'in' | 'mm'): Mm {
  const step = dragStep[units]
  return px === 0 ? mm : Math.max(1, Math.round((mm + px / scale) / step)) * step
}

/**
 * Dragging the number of a dimension along its line: right or up is longer. What is dragged shows at once, and is kept when
 * it is let go; Escape, or a drag that the browser takes away, leaves it as it was.
 */
export function useDrag(resize: Resize | undefined) {
  const grab = useRef<Grab | null>(null)
  const [held, setHeld] = useState<Dragged | null>(null)
  const drop = () => {
    grab.current = null
    setHeld(null)
  }
  return {
    held,
    grabbed:
      (field: string, mm: Mm, scale: number, upright: boolean) =>
      ({ button, clientX: x, clientY: y }: PointerEvent) => {
        if (resize && button === 0) grab.current = { field, mm, scale, upright, x, y, moved: false }
      },
    box: {
      onPointerMove: (event: PointerEvent<HTMLElement>) => {
        const at = grab.current
        if (!at || !resize) return
        // Let go elsewhere.
        if (event.buttons === 0) return drop()
        const px = at.upright ? at.y - event.clientY : event.clientX - at.x
        if (!at.moved && Math.abs(px) < tremble) return
        // From here on it is no tap, wherever the pointer is let go.
        if (!at.moved) event.currentTarget.setPointerCapture?.(event.pointerId)
        at.moved = true
        const mm = draggedTo(at.mm, px, at.scale, resize.units)
        if (mm === held?.mm) return
        const { clientHeight } = event.currentTarget
        const draft = resize.draft(at.field, mm)
        setHeld((last) => ({
          field: at.field,
          mm,
          high: last?.high ?? clientHeight,
          ...(draft.ok ? { good: { mm, draft: draft.value } } : last?.good ? { good: last.good } : {}),
          ...(draft.ok ? {} : { problem: draft.problems.map(({ text }) => text).join(' ') }),
        }))
      },
      onPointerUp: () => {
        const at = grab.current
        grab.current = null
        if (!held || !at?.moved || !resize) return drop()
        // What was dragged stays in sight until it is kept and planned.
        void resize.keep(held.field, held.mm).finally(drop)
      },
      onPointerCancel: drop,
      onKeyDown: ({ key }: { readonly key: string }) => {
        if (key === 'Escape') drop()
      },
    },
  }
}
