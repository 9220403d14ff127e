import type { Warning } from '../frame/frame.ts'
import { bad, good, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import { type Footing, footingOf, levelerWarnings } from './leveler.ts'

// Heights at the foot of a pedestal, from the floor up: leveler, cap, foot, arm.

export interface Levels extends Footing {
  readonly armSection: Section
  /** Foot with arm above it and cap below it, without the leveler. */
  readonly footHeight: Mm
  /** Floor to the underside of the arms. */
  readonly clear: Mm
  /** Floor to the foot of the post. */
  readonly postFoot: Mm
}

/** Solves the heights at the foot, or says which one is impossible and what is possible. */
export function footLevels(values: Values, context: BuildContext): Result<Levels> {
  const { say } = context
  const armSection = values.armSection as Section
  const footing = footingOf(values, context)
  if (!footing.ok) return footing
  const { setting, capThickness } = footing.value
  const given = values.footGives === 'clear under arm' ? (values.clearUnder as Mm) : (values.footHeight as Mm)
  const footHeight = values.footGives === 'clear under arm' ? given - setting + armSection.height : given
  const leastFoot = armSection.height + capThickness
  if (footHeight <= leastFoot) {
    const field = values.footGives === 'clear under arm' ? 'clearUnder' : 'footHeight'
    const least = field === 'clearUnder' ? capThickness + setting : leastFoot
    return bad(
      'foot-too-low',
      `${say(given)} leaves no foot below the arm; it must be more than ${say(least)}.`,
      `build.params.${field}`,
    )
  }
  const clear = setting + footHeight - armSection.height
  return good({
    ...footing.value,
    armSection,
    footHeight,
    clear,
    postFoot:
      values.armsMeet === 'on the post'
        ? clear
        : clear + armSection.height + ((values.hubThickness as Mm | undefined) ?? 0),
  })
}

/** What the levelers want that the feet of a pedestal do not give. */
export const footWarnings = (values: Values, context: BuildContext, levels: Levels): Warning[] =>
  levelerWarnings(values, context, levels, {
    // The foot's inner side is its shortest clear length above the cap; the arm's wall closes it.
    height: levels.footHeight - levels.armSection.height,
    width: Math.min(levels.armSection.width, levels.armSection.height),
    members: ['base/foot-1'],
  })
