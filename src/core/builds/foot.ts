import type { Warning } from '../frame/frame.ts'
import { bad, good, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import { tapOf, threadsIn } from '../thread.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'

// Heights at the foot of a pedestal, from the floor up: leveler, cap, foot, arm.

export interface Levels {
  readonly armSection: Section
  /** Floor to the underside of the cap (or of the foot where there is none). */
  readonly setting: Mm
  readonly capThickness: Mm
  /** Foot with arm above it and cap below it, without the leveler. */
  readonly footHeight: Mm
  /** Floor to the underside of the arms. */
  readonly clear: Mm
  /** Floor to the foot of the post. */
  readonly postFoot: Mm
  /** Thread of the leveler, and the drill for tapping it; absent and 0 without levelers. */
  readonly thread?: string
  readonly drill: Mm
}

/** Solves the heights at the foot, or says which one is impossible and what is possible. */
export function footLevels(values: Values, { say }: BuildContext): Result<Levels> {
  const armSection = values.armSection as Section
  const levelers = values.levelers === true
  const capThickness = values.caps === true ? (values.capThickness as Mm) : 0
  const setting = levelers ? (values.levelerSetting as Mm) : 0
  if (values.caps === true && !(capThickness > 0))
    return bad(
      'cap',
      `The cap was given as ${say(capThickness)}; it must be more than 0.`,
      'build.params.capThickness',
    )
  if (levelers) {
    const least = values.levelerLeast as Mm
    const most = values.levelerMost as Mm
    if (least > most || least < 0)
      return bad(
        'leveler-range',
        `The leveler was given from ${say(least)} to ${say(most)}; the least setting must not be above the most.`,
        'build.params.levelerLeast',
      )
    if (setting < least || setting > most)
      return bad(
        'leveler-setting',
        `The leveler was set to ${say(setting)}; it can stand between ${say(least)} and ${say(most)}.`,
        'build.params.levelerSetting',
      )
  }
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
  const thread = levelers ? (values.thread as string) : undefined
  return good({
    armSection,
    setting,
    capThickness,
    footHeight,
    clear,
    postFoot: values.armsMeet === 'on the post' ? clear : clear + armSection.height,
    ...(thread ? { thread } : {}),
    drill: thread ? tapOf(thread).drill : 0,
  })
}

/** What a leveler wants that the foot does not give: room for its stud, width for its pad, thread in the cap. */
export function levelerWarnings(values: Values, { say }: BuildContext, levels: Levels): Warning[] {
  const { thread, capThickness, armSection, footHeight } = levels
  if (!thread) return []
  const warnings: Warning[] = []
  const feet = ['base/foot-1']
  if (capThickness === 0)
    warnings.push({
      code: 'leveler-without-cap',
      text: 'Levelers need a cap to be tapped into; the feet have none.',
      members: feet,
    })
  else {
    const { threads, diameters } = threadsIn(thread, capThickness)
    if (diameters < 1)
      warnings.push({
        code: 'short-thread',
        text:
          `${thread} in a cap of ${say(capThickness)} has ${threads.toFixed(2).replace(/0$/, '')} threads, less than one ` +
          'diameter of engagement; use a thicker cap or weld a nut inside.',
        members: feet,
      })
  }
  const stud = values.levelerStud as Mm
  const inside = stud - ((values.levelerLeast as Mm) - (values.levelerPad as Mm))
  // The foot's inner side is its shortest clear length above the cap; the arm's wall closes it.
  const room = footHeight - armSection.height
  if (inside > room)
    warnings.push({
      code: 'stud-too-long',
      text: `Turned all the way in, the stud reaches ${say(inside)} into the foot; there is room for ${say(room)}.`,
      members: feet,
    })
  const padWidth = values.levelerPadWidth as Mm
  const cap = Math.min(armSection.width, armSection.height)
  if (padWidth > cap)
    warnings.push({
      code: 'pad-wider-than-cap',
      text: `The leveler's pad is ${say(padWidth)} wide and the cap ${say(cap)}; it will show past the foot.`,
      members: feet,
    })
  return warnings
}
