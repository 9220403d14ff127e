import type { Plate } from '../frame/frame.ts'
import { bad, good, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import type { Reach } from './four-leg-splay.ts'
import { rectangle } from './four-leg-top.ts'
import { type Footing, footingOf } from './leveler.ts'
import { plateOn, rimOf } from './rim.ts'
import { laid } from './top.ts'

/** Heights above the floor and sections, before the lean of the legs is known. */
export interface Stack {
  readonly footing: Footing
  /** Section of the frame or rails, and of the legs, as they stand. */
  readonly section: Section
  readonly leg: Section
  /** Underside of what lies on top, and of the frame or rails under it. */
  readonly upper: Mm
  readonly lower: Mm
  readonly legTop: Mm
  readonly reach: Reach
  /** Where the legs stand. */
  readonly stand: 'under' | 'inside' | 'rails'
  readonly plates: readonly Plate[]
}

/** The heights that follow from overall height, top, frame and feet, or what is impossible about them. */
export function stackOf(values: Values, context: BuildContext): Result<Stack> {
  const { say } = context
  const footing = footingOf(values, context)
  if (!footing.ok) return footing
  const section = laid(values.section as Section, values.stands as 'flat' | 'on edge')
  const leg = laid(values.legSection as Section, values.legStands === 'along the length' ? 'flat' : 'on edge')
  const bare = values.upper === 'rails between the legs'
  const stand = bare ? 'rails' : values.legsMeet === 'inside the corners' ? 'inside' : 'under'
  for (const name of ['length', 'width'] as const) {
    const size = values[name] as Mm
    const least = bare ? 0 : 2 * section.width
    if (!(size > least))
      return bad(
        'size-too-small',
        `The ${name} was given as ${say(size)}; it must be more than ${say(least)}${bare ? '' : `, two tubes of ${say(section.width)}`}.`,
        `build.params.${name}`,
      )
  }
  const half = [(values.length as Mm) / 2, (values.width as Mm) / 2] as const
  const height = values.height as Mm
  const thickness = values.top === 'none' ? 0 : (values.topThickness as Mm)
  const upper = height - thickness
  const lower = upper - section.height
  const { setting, capThickness } = footing.value
  const least = thickness + section.height + setting + capThickness
  if (!(height > least))
    return bad(
      'height-too-low',
      `A height of ${say(height)} leaves no leg; it must be more than ${say(least)}: top ${say(thickness)}, frame or rails ` +
        `${say(section.height)}, cap ${say(capThickness)}, leveler ${say(setting)}.`,
      'build.params.height',
    )
  const rim = rimOf(rectangle(...half), say)
  const plate = plateOn(values, context, upper, rim, [])
  if (!plate.ok) return plate
  const off = stand === 'under' ? (values.legInset as Mm) : stand === 'inside' ? section.width : 0
  return good({
    footing: footing.value,
    section,
    leg,
    upper,
    lower,
    legTop: stand === 'under' ? lower : upper,
    stand,
    reach: {
      foot: setting + capThickness,
      set: { under: lower - context.gap, inside: lower, rails: upper }[stand],
      half: [half[0] - off, half[1] - off],
    },
    plates: plate.value ? [plate.value] : [],
  })
}

/** Section of the stretchers as they lie. */
export const stretcherSection = (values: Values): Section =>
  laid(values.stretcherSection as Section, values.stretcherStands as 'flat' | 'on edge')
