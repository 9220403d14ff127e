import type { AngleShown, SetUp, Trim, Turn } from '../plan-shapes.ts'
import { showAngle } from '../reading/show.ts'
import { isRound, type Section } from '../section/section.ts'
import type { Reading, Saw } from '../shop.ts'
import { sameAngle } from '../tolerance.ts'
import type { Deg } from '../units.ts'
import type { Side } from './lying.ts'
import type { Blade } from './setting.ts'
import type { Cut, Visit } from './visit.ts'

/** The miter as this saw's scale shows it: from square, or counted down from 90. */
export function scaleReading(swing: Deg, { readsAtSquare }: Saw, reading: Reading): AngleShown {
  const fromSquare = showAngle(Math.abs(swing), reading)
  if (readsAtSquare === 0) return fromSquare
  // The rise stays that of the miter from square: it is laid out with a square, not read off the scale.
  return {
    ...showAngle(readsAtSquare - Math.abs(swing), reading),
    ...(fromSquare.rise ? { rise: fromSquare.rise } : {}),
  }
}

export function leanOf(swing: Deg): string {
  if (swing === 0) return 'square'
  return `the end of the blade away from the fence leans ${swing < 0 ? 'toward the stop' : 'away from the stop'}`
}

export const bevelLeanOf = (tilt: Deg): string =>
  `the top of the blade leans ${tilt < 0 ? 'toward the stop' : 'away from the stop'}`

/** A plain V-block holds square tube on its corner, at 45° only. */
const plainBlock: Deg = 45

export function rollWords(roll: Deg, section: Section, reading: Reading): string {
  const { text } = showAngle(Math.abs(roll), reading)
  const way = `toward ${roll > 0 ? 'the fence' : 'you'}`
  if (isRound(section)) return `scribe a line along the top, then turn the tube by ${text}, the line ${way}`
  const square = section.width === section.height
  const block =
    square && Math.abs(Math.abs(roll) - plainBlock) <= sameAngle
      ? 'in a plain V-block'
      : `in a cradle: a block cut to ${text}; a plain V-block holds 45° only`
  return `top of the tube ${way} by ${text}, ${block}; its lower edge on the table, its near edge at the fence`
}

export function rampWords(ramp: Deg, reading: Reading): string {
  const { text, rise } = showAngle(Math.abs(ramp), reading)
  const end = ramp > 0 ? 'the end away from the stop' : 'the end at the stop'
  return `raise ${end} on a wedge of ${text}${rise ? `, ${rise}` : ''}; its faces flat in the vise`
}

const seamWords: Readonly<Record<Side, string>> = {
  up: 'weld seam up',
  down: 'weld seam down, on the table',
  fence: 'weld seam toward the fence',
  outward: 'weld seam away from the fence, toward you',
}

function sideOf({ kind, longSide, parallel }: Cut): string {
  if (kind === 'blank' || kind === 'square') return 'square ends: any side against the fence'
  const what = parallel ? 'the point that touches the stop lies' : 'long side'
  const at = parallel ? 'at the fence' : 'against the fence'
  return longSide === 'fence' ? `${what} ${at}` : `${what} away from the fence, toward you`
}

/** What the person does for each turning; faces, not left and right, so that it holds for a stop on either side. */
export const turnWords: Readonly<Record<Turn, string>> = {
  flip: 'turn the piece over, end for end: the same edge stays against the fence, the top goes down',
  end: 'swing the piece round, end for end: the top stays up, the other edge comes to the fence',
  over: 'roll the piece over: the top goes down, the other edge comes to the fence, the same end at the stop',
  'quarter+': 'roll it a quarter turn, the top toward the fence',
  'quarter-': 'roll it a quarter turn, the top toward you',
}

const sayTurns = (turns: readonly Turn[]): string => turns.map((turn) => turnWords[turn]).join('; then ')

/** What is done with the workpiece between loading and cutting, for all cuts of one set-up together. */
function turningOf(cuts: readonly Cut[]): string {
  const [first] = cuts
  const second = cuts.find(({ kind }) => kind === 'second')
  const other = cuts.find(({ kind }) => kind !== 'second')
  if (!first) return ''
  if (first.kind === 'blank' || first.kind === 'square') return 'push the stick to the stop, no turning'
  if (first.kind === 'split') {
    const load = first.turns.length > 0 ? `${sayTurns(first.turns)}; ` : 'either end to the stop; '
    return `${load}one cut makes both pieces: keep what lies behind the blade too`
  }
  if (first.kind === 'stick') return turningOfStick(cuts)
  const load = other && (other.turns.length > 0 ? sayTurns(other.turns) : 'either end to the stop')
  if (!second) return load ?? ''
  if (!other) return sayTurns(second.turns)
  return `${load}; cut one end; ${sayTurns(second.turns)}; cut the other end`
}

/** Pieces from the stick: one cut makes the end of this piece and of the next. */
function turningOfStick(cuts: readonly Cut[]): string {
  const said = new Set(cuts.slice(1).map(({ turns }) => turns.join(' ')))
  const [only] = said
  if (cuts.length === 1 || (said.size === 1 && only === ''))
    return 'push the stick to the stop, its end as the cut before left it; no turning'
  const turns = cuts.slice(1).find((cut) => cut.turns.length > 0)!.turns
  const when = said.size === 1 ? 'before each further piece' : 'where the cut says so'
  return `push the stick to the stop, its end as the cut before left it; ${when}, ${sayTurns(turns)}`
}

/** A round piece shows no side: what is turned against its first end needs a mark from before it. */
const scribed = (section: Section, cuts: readonly Cut[]): string =>
  isRound(section) && cuts.some(({ kind }) => kind === 'first')
    ? 'scribe a line along the top of each piece first, and turn by it; '
    : ''

/** How the head is set, in words. */
export const headWords = ({ swing, tilt }: Blade, saw: Saw, reading: Reading): Trim['printed'] => ({
  miter: scaleReading(swing, saw, reading),
  lean: leanOf(swing),
  ...(tilt === 0 ? {} : { bevel: showAngle(Math.abs(tilt), reading), bevelLean: bevelLeanOf(tilt) }),
})

/** Words of one set-up, for the person at this saw. */
export function printedOf(visit: Visit, cuts: readonly Cut[], reading: Reading): SetUp['printed'] {
  const cut = cuts[0]!
  const { roll, ramp, seam } = cut
  const bothEnds = cut.kind === 'first' && cuts.some(({ kind }) => kind === 'second')
  const turned = cut.kind === 'stick' && cuts.some(({ turns }) => turns.length > 0)
  const when = bothEnds ? ' at the first end' : turned ? ' at the first piece of each stick' : ''
  return {
    stop: cut.stop,
    ...headWords(cut, visit.saw, reading),
    longSide: sideOf(cut),
    turn: scribed(visit.section, cuts) + turningOf(cuts),
    ...(roll === 0 ? {} : { roll: rollWords(roll, visit.section, reading) }),
    ...(ramp === 0 ? {} : { ramp: rampWords(ramp, reading) }),
    ...(seam === undefined ? {} : { seam: seamWords[seam.now] + when }),
  }
}
