import type { Problem } from '../result.ts'
import { samePoint, sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import { widestRail } from './four-leg-rails.ts'
import type { Splay } from './four-leg-splay.ts'
import { type Stack, stretcherSection } from './four-leg-stack.ts'

/** What cannot be, now that the lean is known; absent where all is well. */
export function faultOf(
  values: Values,
  { say }: BuildContext,
  stack: Stack,
  splay: Splay,
): Problem | undefined {
  const problem = (code: string, field: string, text: string): Problem => ({
    code,
    text,
    field: `build.params.${field}`,
  })
  const [x, y] = splay.axis(stack.legTop)
  for (const [name, clear] of [
    ['length', 2 * (x - splay.out[0])],
    ['width', 2 * (y - splay.out[1])],
  ] as const) {
    const size = values[name] as Mm
    if (clear <= samePoint)
      return problem(
        'legs-too-near',
        name,
        `A ${name} of ${say(size)} leaves nothing between the legs, which take ${say(size - clear)} of it at their upper ends; it must be more than that.`,
      )
  }
  const [tx, ty] = splay.lean
  if (stack.stand === 'inside' && tx > sameSlope && ty > sameSlope)
    return problem(
      'legs-inside-lean',
      'legsMeet',
      'Legs that lean both ways touch the inside of a frame along one edge only. Inside its corners they can stand ' +
        'straight or lean one way; legs that lean both ways go under the frame.',
    )
  const railed = stack.stand === 'rails' ? 'upper' : values.stretchers === 'none' ? undefined : 'stretchers'
  if (splay.turned && railed)
    return problem(
      'rails-on-an-edge',
      railed,
      'A leg that is turned to its lean shows rails an edge, not a face. Turn the tube of the legs square to the frame, ' +
        'or put a frame on the legs and nothing between them.',
    )
  if (stack.stand === 'rails') {
    const { width, height } = stack.section
    const widest = Math.min(widestRail(splay, 'length', height), widestRail(splay, 'width', height))
    if (width > widest + samePoint)
      return problem(
        'rails-too-wide',
        'section',
        `Rails ${say(width)} wide and ${say(height)} high do not stay on the faces of these legs; they can be ` +
          `${widest > 0 ? `${say(widest)} wide` : 'no wider than nothing at this lean'}. Choose narrower rails, a wider leg, less lean, or a frame on the legs.`,
      )
  }
  return stretcherFault(values, say, stack, problem)
}

function stretcherFault(
  values: Values,
  say: (mm: Mm) => string,
  { footing, lower }: Stack,
  problem: (code: string, field: string, text: string) => Problem,
): Problem | undefined {
  if (values.stretchers === 'none') return undefined
  const { height } = stretcherSection(values)
  const given = values.stretcherHeight as Mm
  const least = footing.setting + footing.capThickness + height
  if (given >= least && given <= lower) return undefined
  return least > lower
    ? problem(
        'stretchers-too-high',
        'stretcherSection',
        `Stretchers ${say(height)} high have no room on these legs: ${say(lower - least + height)} are free between cap and frame.`,
      )
    : problem(
        given < least ? 'stretchers-too-low' : 'stretchers-too-high',
        'stretcherHeight',
        `The stretchers were given with their upper face at ${say(given)}; it can lie between ${say(least)}, where they ` +
          `start at the foot of the leg, and ${say(lower)}, the underside of the frame or rails.`,
      )
}
