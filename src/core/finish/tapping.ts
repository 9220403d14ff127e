import type { Frame } from '../frame/frame.ts'
import { type Thread, tapOf, threadsIn } from '../thread.ts'
import { inch, type Mm } from '../units.ts'

/** One kind of tapped hole of a frame. */
export interface Tapping {
  readonly thread: Thread
  readonly holes: number
  readonly thickness: Mm
  /** Thickness over the outside diameter; less than 1 holds too little. */
  readonly diameters: number
  /** Countersink to just past the thread's outside, so that it starts clean (common practice). */
  readonly countersink: Mm
  readonly rpm: number
}

/** Surface speed of a high-speed-steel drill in mild steel, ft/min: of the 70 to 100 of reference.md 9. */
export const drillSpeed = 80

/** Turns of a drill in a minute: 12 · speed / (π · D), speed in ft/min, D in inches (reference.md 9). */
export const drillRpm = (diameter: Mm, feetPerMinute: number): number =>
  Math.round((12 * feetPerMinute) / (Math.PI * (diameter / inch)))

/** Tapped holes by thread and thickness, as the frame has them. */
export function tappingsOf(frame: Frame): readonly Tapping[] {
  const found = new Map<string, Tapping>()
  for (const { thread: name, thickness, holes } of frame.plates) {
    if (name === undefined || holes.length === 0) continue
    const key = `${name} ${thickness}`
    const before = found.get(key)
    if (before) {
      found.set(key, { ...before, holes: before.holes + holes.length })
      continue
    }
    const thread = tapOf(name)
    found.set(key, {
      thread,
      holes: holes.length,
      thickness,
      diameters: threadsIn(name, thickness).diameters,
      countersink: thread.major * 1.05,
      rpm: drillRpm(thread.drill, drillSpeed),
    })
  }
  return [...found.values()]
}
