import type { Arranged } from '../../core/fitup/arrange.ts'
import { arrange } from '../../core/fitup/arrange.ts'
import { bestLast, type Closing, type Off } from '../../core/fitup/closing.ts'
import { bestHalves } from '../../core/fitup/halves.ts'
import type { Loop } from '../../core/fitup/loops.ts'
import { acrossOf, leanOf, type Recut, recuts } from '../../core/fitup/recut.ts'
import { sharedOpenings } from '../../core/fitup/share.ts'
import { fineReading } from '../../core/fitup/tapes.ts'
import type { Part } from '../../core/plan-shapes.ts'
import { say, unitOf } from '../../core/reading/show.ts'
import type { Reading } from '../../core/shop.ts'
import type { Deg, Mm } from '../../core/units.ts'

// What the walk round the ring says, in shop words.

/** Gaps are told finer than lengths are set: to 0.1 mm or 1/64 in. */
export const fine = (mm: Mm, reading: Reading): string => say(mm, fineReading(reading))

export const degrees = (deg: Deg): string =>
  `${Math.abs(deg)
    .toFixed(2)
    .replace(/\.?0+$/, '')}°`

/** A gap that nobody sees and any weld fills: half a step of what gaps are told in. */
export const unseen = (reading: Reading): Mm => (unitOf(reading) === 'mm' ? 0.1 : 25.4 / 64) / 2

/** `closed`, `open 1/16 in`, `runs in 1/64 in`. */
export const saySide = (gap: Mm, reading: Reading): string =>
  Math.abs(gap) < unseen(reading)
    ? 'closed'
    : gap > 0
      ? `open ${fine(gap, reading)}`
      : `runs in ${fine(-gap, reading)}`

const side = (gap: Mm, where: string, reading: Reading): string => `${saySide(gap, reading)} ${where}`

export const sayGap = ({ outside, inside, step }: Closing, reading: Reading): string => {
  const faces = `${side(outside, 'outside', reading)}, ${side(inside, 'inside', reading)}`
  return Math.abs(step) < unseen(reading)
    ? faces
    : `${faces}, one face ${fine(Math.abs(step), reading)} past the other`
}

/** The angle that is left over. */
export function sayLeft(left: Deg): string {
  if (Math.abs(left) < 0.02) return 'The angles close.'
  return left > 0
    ? `The angles are ${degrees(left)} too much all round: the ends are cut too far from square.`
    : `The angles are ${degrees(left)} too little all round: the ends are cut too near square.`
}

export interface Advice {
  readonly id: 'best joint' | 'share' | 'order' | 'halves' | 'recut'
  readonly title: string
  readonly text: string
  /** Order and turning, place by place. */
  readonly list?: readonly string[]
}

interface Asked {
  readonly loop: Loop
  readonly parts: readonly Part[]
  readonly offs: readonly Off[]
  readonly closing: Closing
  readonly reading: Reading
}

/** What can be done about it, with what each leaves. Nothing where the ring closes. */
export function adviceOf({ loop, parts, offs, closing, reading }: Asked): readonly Advice[] {
  const { pieces } = loop
  if (closing.worst < unseen(reading)) return []
  const markOf = new Map(parts.flatMap((part) => part.members.map((id) => [id, part.mark] as const)))
  const marks = pieces.map(({ member }) => markOf.get(member) ?? member)
  const called = (at: number) => `${marks[at]} · ${pieces[at]!.name.toLowerCase()}`
  const left = (of: { readonly worst: Mm }) => `${fine(of.worst, reading)} at most`
  const advice: Advice[] = []
  const best = bestLast(pieces, offs)
  if (best.worst < closing.worst - unseen(reading))
    advice.push({
      id: 'best joint',
      title: `Leave joint ${best.last + 1} for last`,
      text: `There it is ${sayGap(best, reading)}.`,
    })
  const ordered = arrange(loop, marks, offs, closing.last)
  if (ordered.after.worst < closing.worst - unseen(reading))
    advice.push({
      id: 'order',
      title: 'Lay the same pieces in another order',
      text: `Now ${left(closing)} at joint ${closing.last + 1}; then ${left(ordered.after)}.`,
      list: sayOrder(ordered, called, loop),
    })
  const openings = sharedOpenings(pieces, offs)
  const most = (of: 'outside' | 'inside') => Math.max(...openings.map((each) => each[of]))
  const alike = (of: 'outside' | 'inside') =>
    Math.max(...openings.map((each) => Math.abs(each[of] - openings[0]![of]))) < unseen(reading)
  advice.push(
    most('inside') < unseen(reading) && most('outside') < unseen(reading)
      ? {
          id: 'share',
          title: 'Share it over all joints',
          text: 'Spread over all joints it is too little to see at any of them.',
        }
      : alike('outside') && alike('inside')
        ? {
            id: 'share',
            title: 'Share it over all joints',
            text: `Open every joint by ${fine(most('inside'), reading)} inside and ${fine(most('outside'), reading)} outside.`,
          }
        : {
            id: 'share',
            title: 'Share it over all joints',
            text: 'Open each joint so far, and the ring closes:',
            list: openings.map(
              ({ outside, inside }, at) =>
                `Joint ${at + 1}: ${fine(outside, reading)} outside, ${fine(inside, reading)} inside`,
            ),
          },
  )
  const halves = bestHalves(pieces, offs)
  if (halves && loop.ring && halves.worst < closing.worst - unseen(reading))
    advice.push({
      id: 'halves',
      title: 'Make two half rings and join them last',
      text: `Joints ${halves.joints.map(({ last }) => last + 1).join(' and ')} share it: ${left(halves)} at each.`,
    })
  const [recut] = recuts(pieces, offs)
  // One piece that must make up for all the others is no cure: then the setting was wrong.
  if (recut && recut.fromPlan < acrossOf(pieces[recut.piece]!))
    advice.push(sayRecut(recut, called(recut.piece), loop, offs, parts, reading))
  return advice
}

const sayOrder = ({ places }: Arranged, called: (at: number) => string, { pieces }: Loop): string[] =>
  places.flatMap(({ piece, turned }, at) =>
    piece === at && !turned
      ? []
      : [
          `Place of ${pieces[at]!.name.toLowerCase()}: ${piece === at ? 'the same piece' : called(piece)}${turned ? ', turned over end for end' : ''}`,
        ],
  )

function sayRecut(
  { piece, off, fromThis }: Recut,
  name: string,
  loop: Loop,
  offs: readonly Off[],
  parts: readonly Part[],
  reading: Reading,
): Advice {
  const of = loop.pieces[piece]!
  const part = parts.find(({ members }) => members.includes(of.member))
  const exactLength = part
    ? part.printed.primary === 'edge'
      ? Math.max(...part.edges)
      : part.longPoint
    : acrossOf(of)
  const ends = (['entry', 'exit'] as const).map((which) => {
    const { end } = of[which]
    return `${degrees(leanOf(of, which) + off[which])} at end ${end}`
  })
  const shorter = offs[piece]!.length - off.length
  const how =
    Math.abs(shorter) < unseen(reading)
      ? 'as long as it is'
      : `${fine(Math.abs(shorter), reading)} ${shorter > 0 ? 'shorter' : 'longer'} than it is`
  return {
    id: 'recut',
    title: `${fromThis ? 'Recut' : 'Cut anew'} ${name}`,
    text: `${fine(exactLength + off.length, reading)} long, ${how}; ${ends.join(', ')}. ${
      fromThis ? 'The piece has the steel for it.' : 'The piece is too short for it: it takes new steel.'
    } The ring then closes with the others as they are.`,
  }
}
