import type { Program, Run, Step } from '../plan-shapes.ts'
import { sectionKey } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Replayed } from './replay.ts'

/**
 * Programs said to lie side by side: right behind the one that they name, no more of them than the saw takes, of one flat
 * section, every cut square, and step for step the same, so that one stroke makes the cut of each.
 */
export function gangFaults({ programs }: Run, { cuts }: Replayed, shop: Shop): string[] {
  let lead: Program | undefined
  let count = 1
  return programs.flatMap((program) => {
    const { id, beside } = program
    if (beside === undefined) {
      lead = program
      count = 1
      return []
    }
    count += 1
    const name = `program ${id}, side by side with ${beside},`
    if (!lead || lead.id !== beside) return [`${name} does not follow it`]
    const most = shop.saws.find((saw) => saw.id === program.saw)?.gang ?? 1
    const own = cuts.filter((cut) => cut.program.id === id)
    const others = cuts.filter((cut) => cut.program.id === lead?.id)
    const sections = new Set([...own, ...others].map(({ section }) => sectionKey(section.section)))
    const flat = [...own, ...others].every(({ section: { section } }) =>
      ['square-tube', 'rect-tube', 'square-bar', 'flat-bar'].includes(section.kind),
    )
    const sticks = new Set(own.map(({ stick }) => stick))
    return [
      ...(count > most ? [`${name} is one of ${count}; the saw takes ${most}`] : []),
      ...(sections.size > 1 || !flat ? [`${name} is not of one flat section`] : []),
      ...(others.some(({ stick }) => sticks.has(stick)) ? [`${name} is the same stick`] : []),
      ...(alike(lead, program) ? [] : [`${name} is not cut by the same strokes`]),
    ]
  })
}

function alike(one: Program, two: Program): boolean {
  return (
    one.saw === two.saw &&
    one.stopSide === two.stopSide &&
    one.hold === two.hold &&
    Math.abs(one.kerf - two.kerf) <= sameLength &&
    one.steps.length === two.steps.length &&
    one.steps.every((step, at) => sameStep(step, two.steps[at]!))
  )
}

const near = (one: number, two: number) => Math.abs(one - two) <= sameLength

/** The same thing done to both at once; only the names of what it makes differ. */
function sameStep(one: Step, two: Step): boolean {
  if ('head' in one) return 'head' in two && [...one.head, ...two.head].every((angle) => angle === 0)
  if ('trim' in one) return 'trim' in two && near(one.trim, two.trim) && one.trim > 0
  if ('stop' in one) return 'stop' in two && near(one.stop, two.stop) && near(one.exact, two.exact)
  if ('turn' in one) return 'turn' in two && one.turn === two.turn
  if ('cut' in one)
    return (
      'cut' in two &&
      one.setUp === two.setUp &&
      one.cut.rest === two.cut.rest &&
      ['on', 'scrap'].includes(one.cut.rest)
    )
  if ('unload' in one) return 'unload' in two && (one.unload === 'scrap') === (two.unload === 'scrap')
  // Neither cradle nor wedge takes two, and nothing else is taken up between.
  return false
}
