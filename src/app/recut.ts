import type { Made, RackPiece } from '../core/facts.ts'
import type { Nest } from '../core/nest.ts'
import type { Section } from '../core/section/section.ts'
import { fromSteps, type Mm } from '../core/units.ts'

// Steel that was cut for something and is no longer needed for it.

/** The greatest square-ended length in a finished piece, mm, as its geometry key tells; undefined where it does not. */
export function shortSide(key: string): Mm | undefined {
  const xs = key.split(' | ').at(-1)!.split(' ').map(Number)
  if (xs.length < 8 || xs.some((x) => !Number.isFinite(x))) return undefined
  const [a, b] = [xs.slice(0, 4), xs.slice(4, 8)]
  return fromSteps(Math.max(0, Math.min(...b) - Math.max(...a)))
}

/** Length of a blank as its key tells, whole steps; undefined for what is no blank. */
export const blankSteps = (key: string): number | undefined => {
  const found = / blank (\d+)$/.exec(key)
  return found ? Number(found[1]) : undefined
}

/** A piece square at both ends needs no clean-up before it is cut again. */
function isSquare(key: string): boolean {
  const xs = key.split(' | ').at(-1)!.split(' ')
  return xs.length === 8 && new Set(xs.slice(0, 4)).size === 1 && new Set(xs.slice(4)).size === 1
}

function sectionOf(made: Made, nests: ReadonlyMap<string, Nest>): Section | undefined {
  const sections = nests.get(made.nest ?? '')?.sections ?? []
  const own = sections.find(({ demand }) =>
    demand.some(({ key, mark }) => key === made.key || mark === made.mark),
  )
  return own?.section
}

/** A finished piece as steel for something shorter, named by its cut; its mitered ends are cleaned up first. */
export function steelOf(made: Made, nests: ReadonlyMap<string, Nest>): RackPiece | undefined {
  const section = sectionOf(made, nests)
  const length = shortSide(made.key)
  if (!section || length === undefined || length <= 0) return undefined
  const end = isSquare(made.key) ? 'cut' : 'mill'
  return { id: made.id, section, length, ends: [end, end], from: 'drop' }
}
