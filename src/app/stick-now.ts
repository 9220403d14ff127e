import { stickName } from '../core/facts/rack.ts'
import type { Progress } from '../core/facts.ts'
import type { Nest, NestSection, NestStick } from '../core/nest.ts'
import { front, tail } from '../core/stick-room.ts'
import { sameLength } from '../core/tolerance.ts'
import type { Mm } from '../core/units.ts'

/** A stick as it really lies there: as it was measured when it was loaded, else as the nest reckons with it. */
export type StickNow = Pick<NestStick, 'length' | 'ends'>

export const stickNow = (nest: string, stick: NestStick, { loaded }: Progress): StickNow =>
  loaded[stickName(nest, stick.id)] ?? stick

/** What the real stick lacks for the pieces that are planned on it, mm; 0 where it does. */
export function lacking(section: NestSection, stick: NestStick, now: StickNow): Mm {
  const [first, last] = [stick.pieces[0], stick.pieces.at(-1)]
  if (!first || !last) return 0
  // A blank or half of an earlier plan is used as it lies: nothing is cut off it here, so nothing has to be held.
  const planned = first.ends[0].x - last.ends[1].x
  const uncut = stick.pieces.length === 1 && Math.abs(stick.length - planned) <= sameLength
  if (uncut && stick.rack !== undefined) return Math.max(0, planned - now.length - sameLength)
  const need = front(section, now.ends[0], first.ends[0]) + planned + tail(section, now.ends[1], last.ends[1])
  const lacks = need - now.length
  return lacks > sameLength ? lacks : 0
}

/** What will be left of the real stick when all that is planned on it is cut, mm. */
export const dropNow = (stick: NestStick, now: StickNow): Mm =>
  Math.max(0, stick.drop + now.length - stick.length)

export interface Short {
  readonly stick: string
  readonly lacks: Mm
}

/**
 * Sticks of the nest that are too short for what is planned on them: as they were loaded, or because somebody cut on from
 * what the nest took for their rest. `restOf` says how long the rest of an earlier stick is now.
 */
export function shortSticks(
  nest: Nest,
  progress: Progress,
  restOf: (rack: string) => StickNow | undefined,
): readonly Short[] {
  return nest.sections.flatMap((section) =>
    section.sticks.flatMap((stick) => {
      const name = stickName(nest.id, stick.id)
      const rest = name in progress.opened || stick.rack === undefined ? undefined : restOf(stick.rack)
      const lacks = lacking(section, stick, progress.loaded[name] ?? rest ?? stick)
      return lacks > 0 ? [{ stick: stick.id, lacks }] : []
    }),
  )
}
