import { stickName } from '../core/facts/rack.ts'
import type { FactDraft, Progress } from '../core/facts.ts'
import type { Nest, NestSection, NestStick } from '../core/nest.ts'
import { fromSteps, stepsDown, stepsUp } from '../core/units.ts'
import { sticksOf } from './rack.ts'

/**
 * The sticks of a nest that were begun, as the drops they are now, for a plan of what is left. Counted in whole steps
 * from what was really cut off, in whatever order: the clean-up cut of a mill end, then each blank and a kerf behind
 * it. What is shorter than `least` is scrap. A stick whose drop was kept already is told by that.
 */
export function remainsOf(nest: Nest, progress: Progress, least: number): readonly FactDraft[] {
  return nest.sections.flatMap((section) =>
    section.sticks.flatMap((stick): readonly FactDraft[] => {
      const name = stickName(nest.id, stick.id)
      if (!(name in progress.opened) || progress.kept.includes(name)) return []
      const rest = restOf(nest, section, stick, progress)
      if (rest === undefined || rest.length < least || rest.length <= 0) return []
      return [
        {
          kind: 'kept',
          nest: nest.id,
          body: { section: section.section, stick: stick.id, length: rest.length, ends: rest.ends },
        },
      ]
    }),
  )
}

interface Rest {
  readonly length: number
  readonly ends: NestStick['ends']
}

function restOf(
  nest: Nest,
  { kerf, trim }: NestSection,
  stick: NestStick,
  { made }: Progress,
): Rest | undefined {
  const cuts = made.filter(
    ({ nest: of, from }) => of === nest.id && 'stick' in from && from.stick === stick.id,
  )
  if (cuts.length === 0) return { length: stick.length, ends: stick.ends }
  let left = stepsDown(stick.length)
  if (stick.ends[0] === 'mill' && trim > 0) left -= stepsUp(Math.max(trim, kerf))
  for (const { mark } of cuts) {
    const length = lengthOf(nest, stick, mark)
    // Steel of a mark that this nest does not have: how much is left is not known, so nothing is said.
    if (length === undefined) return undefined
    left -= stepsUp(length) + stepsUp(kerf)
  }
  return { length: fromSteps(left), ends: ['cut', stick.ends[1]] }
}

/** Length of what leaves the stick for a mark; every piece of a mark has the same. */
function lengthOf(nest: Nest, stick: NestStick, mark: string): number | undefined {
  const all = [...stick.pieces, ...sticksOf(nest).flatMap((at) => at.stick.pieces)]
  const piece = all.find((one) => one.mark === mark)
  return piece && Math.abs(piece.ends[0].x - piece.ends[1].x)
}
