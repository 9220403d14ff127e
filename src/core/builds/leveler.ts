import type { Warning } from '../frame/frame.ts'
import { bad, good, type Result } from '../result.ts'
import { tapOf, threadNames, threadsIn } from '../thread.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, ParamSpec, Values } from './build.ts'

// What stands under the lowest tube of a thing with feet: cap and leveler, from the floor up.

const feet = 'Feet'
const withCaps = (given: Readonly<Record<string, unknown>>) => given.caps !== false
const withLevelers = (given: Readonly<Record<string, unknown>>) => given.levelers !== false

/** Caps on the feet and leveling feet in them. */
export const levelerParams: readonly ParamSpec[] = [
  { name: 'caps', label: 'End caps on the feet', type: 'flag', start: true, group: feet },
  {
    name: 'capThickness',
    label: 'Cap thickness',
    type: 'length',
    start: { in: '3/8', mm: 10 },
    when: withCaps,
    group: feet,
  },
  { name: 'levelers', label: 'Leveling feet', type: 'flag', start: true, group: feet },
  {
    name: 'thread',
    label: 'Thread',
    type: 'choice',
    start: { in: '3/8-16', mm: 'M10' },
    choices: threadNames.map((value) => ({ value, label: value })),
    when: withLevelers,
    group: feet,
  },
  {
    name: 'levelerPad',
    label: 'Pad height',
    type: 'length',
    start: { in: '1/4', mm: 8 },
    least: 0,
    why: 'a pad has a height',
    when: withLevelers,
    group: feet,
  },
  {
    name: 'levelerPadWidth',
    label: 'Pad width',
    type: 'length',
    start: { in: '1 1/4', mm: 32 },
    when: withLevelers,
    group: feet,
  },
  {
    name: 'levelerLeast',
    label: 'Least setting',
    type: 'length',
    start: { in: '3/8', mm: 10 },
    hint: 'Floor to cap, turned all the way in.',
    when: withLevelers,
    group: feet,
  },
  {
    name: 'levelerMost',
    label: 'Most setting',
    type: 'length',
    start: { in: '1', mm: 25 },
    when: withLevelers,
    group: feet,
  },
  {
    name: 'levelerSetting',
    label: 'Set to',
    type: 'length',
    start: { in: '1/2', mm: 15 },
    when: withLevelers,
    group: feet,
  },
  {
    name: 'levelerStud',
    label: 'Stud length',
    type: 'length',
    start: { in: '1 1/2', mm: 40 },
    when: withLevelers,
    group: feet,
  },
]

export interface Footing {
  /** Floor to the underside of the cap, or of the foot where there is none; 0 without levelers. */
  readonly setting: Mm
  /** 0 for no cap. */
  readonly capThickness: Mm
  /** Thread of the leveler, and the drill for tapping it; absent and 0 without levelers. */
  readonly thread?: string
  readonly drill: Mm
}

/** Cap and leveler as given, or what is impossible about them and what is possible. */
export function footingOf(values: Values, { say }: BuildContext): Result<Footing> {
  const levelers = values.levelers === true
  const capThickness = values.caps === true ? (values.capThickness as Mm) : 0
  const setting = levelers ? (values.levelerSetting as Mm) : 0
  if (values.caps === true && !(capThickness > 0))
    return bad(
      'cap',
      `The cap was given as ${say(capThickness)}; it must be more than 0.`,
      'build.params.capThickness',
    )
  if (!levelers) return good({ setting, capThickness, drill: 0 })
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
  const thread = values.thread as string
  return good({ setting, capThickness, thread, drill: tapOf(thread).drill })
}

/** A leveling foot as it is bought: thread, stud and pad. */
export const levelerText = (values: Values, { say }: BuildContext, thread: string): string =>
  `${thread} leveling foot, stud ${say(values.levelerStud as Mm)}, pad ${say(values.levelerPadWidth as Mm)}`

/** What a foot has for its leveler. */
export interface FootRoom {
  /** Clear height above the cap, for the stud. */
  readonly height: Mm
  /** Least width of the cap. */
  readonly width: Mm
  readonly members: readonly string[]
}

/** What a leveler wants that the foot does not give: room for its stud, width for its pad, thread in the cap. */
export function levelerWarnings(
  values: Values,
  { say }: BuildContext,
  { thread, capThickness }: Footing,
  { height, width, members }: FootRoom,
): Warning[] {
  if (!thread) return []
  const warnings: Warning[] = []
  if (capThickness === 0)
    warnings.push({
      code: 'leveler-without-cap',
      text: 'Levelers need a cap to be tapped into; the feet have none.',
      members,
    })
  else {
    const { threads, diameters } = threadsIn(thread, capThickness)
    if (diameters < 1)
      warnings.push({
        code: 'short-thread',
        text:
          `${thread} in a cap of ${say(capThickness)} has ${threads.toFixed(2).replace(/0$/, '')} threads, less than one ` +
          'diameter of engagement; use a thicker cap or weld a nut inside.',
        members,
      })
  }
  const stud = values.levelerStud as Mm
  const inside = stud - ((values.levelerLeast as Mm) - (values.levelerPad as Mm))
  if (inside > height)
    warnings.push({
      code: 'stud-too-long',
      text: `Turned all the way in, the stud reaches ${say(inside)} into the foot; there is room for ${say(height)}.`,
      members,
    })
  const padWidth = values.levelerPadWidth as Mm
  if (padWidth > width)
    warnings.push({
      code: 'pad-wider-than-cap',
      text: `The leveler's pad is ${say(padWidth)} wide and the cap ${say(width)}; it will show past the foot.`,
      members,
    })
  return warnings
}
