import { type Nest, type NestPiece, type NestSection, piecesIn } from '../nest.ts'
import type { Part, Run, Verdict } from '../plan-shapes.ts'
import { type Section, sectionKey } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import { type Mm, toRad } from '../units.ts'
import { finishedFaults, printedFaults, rounding } from './finished.ts'
import { gangFaults } from './gangs.ts'
import { leftFaults } from './left.ts'
import { productFaults } from './products.ts'
import { type Measured, type Replayed, type Rounded, replay } from './replay.ts'
import { limitFaults } from './saw-limits.ts'
import { seamFaults } from './seam-side.ts'
import { halfStep, setUpFaults } from './set-up-records.ts'
import { mm } from './words.ts'

/**
 * Judges the work at the saw by doing it: every program is replayed on boxes with end planes, pushed to the stop plate,
 * once with the exact stops and once with those that people read. What comes out must be the nest's pieces, each the
 * part that it is to be (unrounded with the exact stops, within the reading with those read), its weld seam on the side that it is pinned to, with nothing asked that the shop's saw cannot do or hold; the set-up records, which people
 * read, must say what the programs do. Nothing here comes from the code that planned the run.
 */
export function checkRun(run: Run, nest: Nest, parts: readonly Part[], shop: Shop): Verdict {
  const measured: Measured = ({ section }) => measuredSize(section, shop)
  const half = halfStep(shop.reading)
  const rounded = roundedOn(nest, parts, (one, two) => one + two)
  const exact = replay(run, nest, 'exact', measured, rounded)
  const faults = [
    ...repeatedFaults(run),
    ...exact.faults,
    ...productFaults(run, nest, exact, half),
    ...leftFaults(run, nest, exact),
    ...gangFaults(run, exact, shop),
    ...limitFaults(run.programs, exact, shop, rounded, finishedIn(run)),
    ...setUpFaults(run, exact, shop, roundedOn(nest, parts, Math.max)),
    ...seamFaults(run, nest, parts, exact),
    ...eachPiece(nest, parts, exact, (piece, { solid, section }, part) => [
      ...(section.trim > 0 && (solid.lead.mill || solid.trail.mill)
        ? [`piece ${piece.piece} still has a mill end`]
        : []),
      ...finishedFaults(piece, solid, part, isNominal(section, shop)),
    ]),
  ]
  // What fails with exact stops is refused already; the same words twice would not help.
  if (faults.length > 0) return { faults }
  const asRead = replay(run, nest, 'stop', measured, nothing, 2 * half)
  return {
    faults: [
      ...[...asRead.faults, ...bluntFaults(run, asRead, half)].map(
        (fault) => `by the printed stops, ${fault}`,
      ),
      ...eachPiece(nest, parts, asRead, (piece, { solid }, part) =>
        printedFaults(piece, solid, missingAt(asRead, piece.piece), part, half, raised(asRead, piece.piece)),
      ),
    ],
  }
}

/** How far the printed lengths of a stick's pieces, which the nest counts, lie from the unrounded ones: all together, or the most. */
function roundedOn(nest: Nest, parts: readonly Part[], together: (one: Mm, two: Mm) => Mm): Rounded {
  const byKey = new Map(parts.map((part) => [part.key, Math.abs(rounding(part))]))
  const sticks = new Map(
    nest.sections.flatMap((section) =>
      section.sticks.map(({ id, pieces }): [string, Mm] => [
        id,
        // The halves of a pair are rounded together, in one blank.
        pieces.reduce(
          (all, piece) =>
            together(
              all,
              piecesIn(piece).reduce((sum, { key }) => sum + (byKey.get(key) ?? 0), 0),
            ),
          0,
        ),
      ]),
    ),
  )
  return (stick) => sticks.get(stick) ?? 0
}

const nothing: Rounded = () => 0

/**
 * On a wedge the piece lies along the fence shorter than it is: what a stop is off, its length is off by more. The steepest
 * of the cuts that made it counts.
 */
function raised(replayed: Replayed, id: string): number {
  const { cuts, made } = replayed
  const cut = cuts.find(({ keep }) => keep === id)
  const from = made.get(id)?.from
  const here = 1 / Math.cos(toRad(cut?.setting.ramp ?? 0))
  return from === undefined ? here : Math.max(here, raised(replayed, from))
}

const missingAt = ({ cuts }: Replayed, id: string): Mm => cuts.find(({ keep }) => keep === id)?.missing ?? 0

const finishedIn = ({ products }: Pick<Run, 'products'>): ReadonlySet<string> =>
  new Set(products.filter(({ kind }) => kind === 'piece').map(({ id }) => id))

/**
 * Two rounded stops may leave a blank a little short of the corner that the blade then cuts. On a finished piece that
 * counts in its length; on anything before, half of what the shop reads is let go.
 */
function bluntFaults({ products }: Run, { cuts }: Replayed, half: Mm): string[] {
  const finished = finishedIn({ products })
  return cuts
    .filter(({ keep, missing, setting }) => {
      const most = half / Math.cos(toRad(setting.ramp))
      return missing > most + sameLength && !finished.has(keep)
    })
    .map(({ keep, missing }) => `cut ${keep}: not enough steel, ${mm(missing)} are missing at the far end`)
}

function repeatedFaults({ programs }: Run): string[] {
  const seen = new Set<string>()
  return programs.flatMap(({ id }) => {
    if (seen.has(id)) return [`program ${id} stands twice`]
    seen.add(id)
    return []
  })
}

/** A finished piece that the nest wants. */
type Finished = Pick<NestPiece, 'piece' | 'mark' | 'key'>

type MadePiece = Replayed['made'] extends ReadonlyMap<string, infer M> ? M : never

/** Faults of every piece of the nest that was made, beside the part that it is to be. */
function eachPiece(
  nest: Nest,
  parts: readonly Part[],
  { made }: Replayed,
  judge: (piece: Finished, made: MadePiece, part: Part) => string[],
): string[] {
  // Two jobs of one nest may have parts of one geometry, each under its own mark.
  const byKey = new Map<string, Part[]>()
  for (const part of parts) byKey.set(part.key, [...(byKey.get(part.key) ?? []), part])
  return nest.sections.flatMap(({ sticks }) =>
    sticks.flatMap(({ pieces }) =>
      pieces.flatMap(piecesIn).flatMap((piece) => {
        const alike = byKey.get(piece.key) ?? []
        const part = alike.find(({ mark }) => mark === piece.mark) ?? alike[0]
        const real = made.get(piece.piece)
        if (!part) return [`piece ${piece.piece}: no part has its key`]
        if (part.mark !== piece.mark)
          return [`piece ${piece.piece} is marked ${piece.mark}; the part with its key is ${part.mark}`]
        // A piece that was not made is named where the products are judged.
        return real ? judge(piece, real, part) : []
      }),
    ),
  )
}

/** The size of this delivery where it was measured, laid as the nest's section lies. */
function measuredSize(section: Section, shop: Shop) {
  const key = sectionKey(section)
  const carried = shop.sections.find((each) => sectionKey(each.section) === key)
  if (!carried?.measured) return { width: section.width, height: section.height }
  const { width, height } = carried.measured
  const asCarried = Math.abs(carried.section.width - section.width) <= sameLength
  return asCarried ? { width, height } : { width: height, height: width }
}

function isNominal({ section }: NestSection, shop: Shop): boolean {
  const { width, height } = measuredSize(section, shop)
  return Math.abs(width - section.width) <= sameLength && Math.abs(height - section.height) <= sameLength
}
