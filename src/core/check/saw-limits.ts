import type { Program } from '../plan-shapes.ts'
import { isRound } from '../section/section.ts'
import type { Saw, Shop } from '../shop.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import type { Deg, Mm } from '../units.ts'
import type { Replayed, ReplayedCut, ReplayedTrim } from './replay.ts'
import { least, type Solid } from './solid.ts'
import { deg, mm } from './words.ts'

/**
 * Whether the shop's saws can do what the programs ask of them, and hold what is cut. `rounded`: what the rounding of its
 * pieces may take from a stick, by its id; people set the printed stops, so that much less to hold with the exact ones is
 * no fault. `pieces`: the products that are finished pieces.
 */
export function limitFaults(
  programs: readonly Program[],
  { cuts, trims }: Replayed,
  shop: Shop,
  rounded: (stick: string) => Mm,
  pieces: ReadonlySet<string>,
): string[] {
  const sawOf = (id: string) => shop.saws.find((saw) => saw.id === id)
  return [
    ...programs.flatMap((program) => {
      const saw = sawOf(program.saw)
      const faults = saw ? programFaults(program, saw) : [`the shop has no saw ${program.saw}`]
      return faults.map((fault) => `program ${program.id}: ${fault}`)
    }),
    ...[...cuts, ...trims].flatMap((cut) => {
      const saw = sawOf(cut.program.saw)
      if (!saw) return []
      const name = 'keep' in cut ? `cut ${cut.keep}` : 'clean-up cut'
      const faults = [
        ...settingFaults(cut, saw),
        ...('keep' in cut ? stopFaults(cut, saw) : []),
        ...heldFaults(cut, saw, rounded(cut.stick)),
        ...('second' in cut && cut.second !== undefined && pieces.has(cut.second)
          ? halvesFaults(cut, saw, rounded(cut.stick))
          : []),
      ]
      return faults.map((fault) => `program ${cut.program.id}, ${name}: ${fault}`)
    }),
  ]
}

function programFaults({ kerf, stopSide, hold }: Program, saw: Saw): string[] {
  const faults: string[] = []
  const blade = saw.blades.find(({ id }) => id === saw.blade)
  if (!blade) faults.push(`${saw.name} has no blade ${saw.blade}`)
  else if (!(Math.abs(blade.kerf - kerf) <= sameLength))
    faults.push(`reckons with a kerf of ${mm(kerf)}; the blade on ${saw.name} takes ${mm(blade.kerf)}`)
  // The vise stays where it is: a stop on the other side of the blade changes which part it holds.
  const usual = stopSide === saw.stopSide
  const held =
    saw.viseHolds === 'both' || usual ? saw.viseHolds : saw.viseHolds === 'stick' ? 'stop' : 'stick'
  if (held !== 'both' && held !== hold)
    faults.push(
      `holds the ${hold}'s side; with its stop at the ${stopSide} the vise of ${saw.name} holds the ${held}'s side`,
    )
  return faults
}

function settingFaults(cut: ReplayedCut | ReplayedTrim, saw: Saw): string[] {
  const { program, setting } = cut
  const round = 'keep' in cut && isRound(cut.section.section)
  const faults: string[] = []
  const { swing, tilt, roll, ramp } = setting
  for (const [name, angle] of Object.entries({ swing, tilt, roll, ramp }))
    if (!Number.isFinite(angle)) faults.push(`a ${name} of ${angle}`)
  // Limits are those of the machine, told for its usual stop; with the stop on the other side they change places.
  const usual = program.stopSide === saw.stopSide
  const { towardStop, awayFromStop, bevel } = saw.limits
  const most: Deg = swing < 0 === usual ? towardStop : awayFromStop
  if (!(Math.abs(swing) <= most + sameSlope))
    faults.push(`a miter of ${deg(swing)}; ${saw.name} swings ${deg(most)} that way`)
  if (!(Math.abs(tilt) <= bevel + sameSlope))
    faults.push(
      bevel > 0
        ? `a bevel of ${deg(tilt)}; ${saw.name} tilts ${deg(bevel)}`
        : `a bevel of ${deg(tilt)}; ${saw.name} does not tilt`,
    )
  // A round tube lies turned by any angle as it is; only a square one needs a block for it.
  if (roll !== 0 && saw.cradle === false && !round)
    faults.push(`a roll of ${deg(roll)}; no cradle is used on ${saw.name}`)
  if (ramp !== 0 && saw.ramp === false) faults.push(`a ramp of ${deg(ramp)}; no wedge is used on ${saw.name}`)
  if (ramp !== 0 && tilt !== 0) faults.push('a ramp and a bevel together have no zero at the fence')
  return faults
}

function stopFaults({ stop: { stop, exact } }: ReplayedCut, saw: Saw): string[] {
  const { longestStop } = saw.limits
  if (!(stop > 0 && exact > 0)) return [`a stop of ${mm(Math.min(stop, exact))}; it must be more than 0`]
  if (!(stop <= longestStop + sameLength)) return [`a stop of ${mm(stop)}; the longest is ${mm(longestStop)}`]
  return []
}

/** Of a cut that makes two finished pieces neither may be too short for the vise. */
function halvesFaults({ keep, second, kept, rest }: ReplayedCut, saw: Saw, rounded: Mm): string[] {
  return [[keep, kept] as const, [second ?? '', rest] as const].flatMap(([name, half]) => {
    const shortest = least(half, half.lead, half.trail)
    if (shortest >= saw.leastToHold - rounded - sameLength) return []
    return [`splits off ${name} with ${mm(shortest)} to hold; ${saw.name} needs ${mm(saw.leastToHold)}`]
  })
}

/** The part that the vise holds must be long enough on its shortest edge. */
function heldFaults(cut: ReplayedCut | ReplayedTrim, saw: Saw, rounded: Mm): string[] {
  const { hold } = cut.program
  if ('left' in cut && hold === 'stop') return ['the vise holds the end that is cut off']
  const held: Solid = 'left' in cut ? cut.left : hold === 'stop' ? cut.kept : cut.rest
  // The last cut of a stick may run out of the steel: then nothing is left to hold.
  const shortest = Math.max(0, least(held, held.lead, held.trail))
  if (shortest >= saw.leastToHold - rounded - sameLength) return []
  const what = 'keep' in cut && hold === 'stop' ? cut.keep : 'the stick'
  return [`the vise holds ${mm(shortest)} of ${what}; it needs ${mm(saw.leastToHold)}`]
}
