import type { NestPiece, Slope } from '../nest.ts'
import type { Part } from '../plan-shapes.ts'
import { readingStep, say, showAngle } from '../reading/show.ts'
import type { Result } from '../result.ts'
import { bad } from '../result.ts'
import type { Reading, Saw } from '../shop.ts'
import { sameAngle } from '../tolerance.ts'
import type { Deg, Mm } from '../units.ts'
import { type Holding, limitsOf } from './hold.ts'
import { withWays } from './left.ts'
import { isCompound } from './method.ts'
import { cradleOf, rampOf, settingOf } from './setting.ts'

// Every reason why a run cannot be planned, said with what was asked, what is possible, and a way out.

/** A reason with its ways out: said in one text, and kept in two parts. */
const refuse = (code: string, why: string, ways: readonly string[]): Result<never> => ({
  ok: false,
  problems: [{ code, text: withWays(why, ways), out: { why, ways } }],
})

export const unknownPart = (piece: Pick<NestPiece, 'piece'>): Result<never> =>
  bad(
    'nest-of-another-job',
    `The nest holds ${piece.piece}, and no part of this job has that shape: it was made for another job or before a change. Plan the sticks again.`,
  )

/** The end that asks most of the saw: the other one may well be within its reach. */
function steepestCompound({ slopes }: Part): Slope {
  const steepness = ({ p, q }: Slope) => Math.hypot(p, q)
  return slopes.filter(isCompound).reduce((a, b) => (steepness(b) > steepness(a) ? b : a))
}

/** A compound end, with what each way of cutting it would ask, beside what this saw and shop have. */
export function compoundEnd(part: Part, saw: Saw, holding: Holding, reading: Reading): Result<never> {
  const end = steepestCompound(part)
  const angle = (deg: Deg) => showAngle(Math.abs(deg), reading).text
  const { toward, away } = limitsOf(saw, holding)
  const bevel = settingOf(end)
  const [cradle, ramp] = [cradleOf(end), rampOf(end)]
  const asks = [
    `miter ${angle(bevel.swing)} with bevel ${angle(bevel.tilt)}`,
    `miter ${angle(cradle.swing)} from a cradle`,
    `miter ${angle(ramp.swing)} on a wedge of ${angle(ramp.ramp)}`,
  ]
  const has = [
    `miters to ${angle(toward)} toward the stop and ${angle(away)} away from it`,
    saw.limits.bevel > 0 ? `bevels to ${angle(saw.limits.bevel)}` : 'does not bevel',
    ...(saw.cradle === false ? ['no cradle'] : []),
    ...(saw.ramp === false ? ['no wedge'] : []),
  ]
  const ways = [
    ...(saw.cradle === false || saw.ramp === false ? ['allow a cradle or a wedge for this saw in Shop'] : []),
    'turn the member about its axis until one of its faces holds the miter, as a leg turned to its lean: one plain miter then',
    'end it square and butt it',
  ]
  return refuse(
    'compound-cut',
    `${part.mark}: an end is mitered and beveled at once: ${asks.join(', or ')}. ${saw.name}: ${has.join(', ')}.`,
    ways,
  )
}

export function wrongBlank({ mark }: Part, blank: Mm, needed: Mm, reading: Reading): Result<never> {
  return bad(
    'blank-too-short',
    `${mark} needs a blank of ${say(needed, reading)} (${needed.toFixed(2)} mm), tip to tip; the nest gives ${blank.toFixed(2)} mm. Plan the sticks again.`,
  )
}

export function pastLimit(part: Part, saw: Saw, holding: Holding, reading: Reading): Result<never> {
  const steepest = Math.max(...part.angleFromSquare)
  const angle = (deg: Deg) => showAngle(deg, reading).text
  const { toward, away } = limitsOf(saw, holding)
  // The block and the head, each one half: the block can then be cut on this saw. Common practice.
  const block = steepest / 2
  const withBlock = block <= Math.min(toward, away) + sameAngle
  const ways = [
    ...(withBlock
      ? [`a ${angle(block)} wedge block against the fence and the head at ${angle(block)} the other way`]
      : []),
    'a blank left long enough to hold, mitered by hand to a scribed line',
    'a butt joint instead of the miter',
  ]
  return refuse(
    'beyond-the-saw',
    `${part.mark}: a miter of ${angle(steepest)} from square; ${saw.name} goes to ${angle(toward)} with the blade leaning toward the stop and to ${angle(away)} leaning away from it, as the stop stands for this cut.`,
    ways,
  )
}

export const pastStop = (label: string, stop: Mm, saw: Saw, reading: Reading): Result<never> =>
  refuse(
    'past-longest-stop',
    `${label}: the stop would stand at ${say(stop, reading)}; that of ${saw.name} reaches ${say(saw.limits.longestStop, reading)}.`,
    ['no stop for this one, measure and mark it', 'lengthen the fence and enter its longest stop in Shop'],
  )

export const stopInBlade = (label: string, stop: Mm, reading: Reading): Result<never> =>
  refuse('no-room-for-stop', `${label}: the stop would stand at ${say(stop, reading)}, inside the blade.`, [
    'put the long side at the fence',
    'make the piece longer',
  ])

export const notHeld = (label: string, held: Mm, saw: Saw, reading: Reading): Result<never> =>
  refuse(
    'too-short-to-hold',
    `${label}: ${say(Math.max(0, held), reading)} would be in the vise; ${saw.name} must hold at least ${say(saw.leastToHold, reading)}.`,
    [
      'miter the end on a longer stick first and cut the piece off last',
      'a clamping block of the same section beside it',
    ],
  )

export const bluntCorner = (label: string, lost: Mm, reading: Reading): Result<never> =>
  refuse(
    'blunt-corner',
    `${label}: with both stops rounded to the reading, a corner would lack ${lost.toFixed(2)} mm.`,
    [
      'put the long side at the fence',
      'a finer reading',
      `a blank allowance of ${say(2 * readingStep(reading), reading)}`,
    ],
  )

export const lacksSteel = (label: string, stick: string, lacking: Mm, reading: Reading): Result<never> =>
  bad(
    'stick-too-short',
    `${stick}: with every stop rounded to the reading, ${label} would be ${lacking.toFixed(2)} mm short. Ways out: a finer reading, or a blank allowance that the reading can show (${say(0, reading)} or whole steps of it); then plan the sticks again.`,
  )
