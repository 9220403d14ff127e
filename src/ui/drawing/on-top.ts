import type { Draft } from '../../core/draft.ts'
import { sameLength } from '../../core/tolerance.ts'
import { memberSolid } from './solid.ts'

/** Plates above every member: from above they would hide the frame. */
export function platesOnTop({ frame }: Pick<Draft, 'frame'>): ReadonlySet<string> {
  if (frame.plates.length === 0) return new Set()
  const highest = Math.max(...frame.members.flatMap((of) => memberSolid(of).points.map((point) => point[2])))
  return new Set(frame.plates.filter(({ pose }) => pose[14]! >= highest - sameLength).map(({ id }) => id))
}
