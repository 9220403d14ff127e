import type { Part } from '../plan-shapes.ts'
import { say } from '../reading/show.ts'
import { toleranceOf } from '../saw/first-piece.ts'
import type { Reading, Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Deg, Mm } from '../units.ts'
import { builtCorners } from './built.ts'
import {
  angleAllowed,
  type FlatClass,
  flatAllowed,
  fromMemory,
  type LinearClass,
  lengthAllowed,
} from './general.ts'
import type { Loop } from './loops.ts'
import { diagonalName, diagonalsOf, flatsName, flatsOf } from './square.ts'

/** A distance of a loop that a tape can measure, and what it must be when every piece has its printed length. */
export interface Tape {
  /** The name under which the measured one is kept. */
  readonly name: string
  readonly kind: 'corners' | 'flats'
  readonly label: string
  readonly expected: Mm
}

/** From corner to corner, then across the flats. */
export function tapesOf(loop: Loop, parts: readonly Part[]): readonly Tape[] {
  const corners = builtCorners(loop, parts)
  const n = corners.length
  const side = (from: number) => `${from}–${(from % n) + 1}`
  return [
    ...diagonalsOf(corners).map(
      ({ id, from, to, expected }): Tape => ({
        name: diagonalName(loop.id, id),
        kind: 'corners',
        label: `Corner ${from} to ${to}`,
        expected,
      }),
    ),
    ...flatsOf(corners).map(
      ({ id, from, to, expected }): Tape => ({
        name: flatsName(loop.id, id),
        kind: 'flats',
        label: `Side ${side(from)} to side ${side(to)}`,
        expected,
      }),
    ),
  ]
}

/** Gaps and errors are told finer than lengths are set: to 0.1 mm or 1/64 in. */
export const fineReading = (reading: Reading): Reading =>
  reading.kind === 'mm' ? { kind: 'mm', step: 0.1 } : { kind: 'inch-fraction', denominator: 64 }

/** What a measured figure may be off by, and who says so. */
export interface Allowed<T> {
  readonly most: T
  /** `class B`, `the shop’s tolerance`. */
  readonly by: string
}

const classOf = (of: LinearClass | FlatClass): string =>
  `class ${of}${fromMemory.includes(of) ? ' (from memory)' : ''}`

/** Of a length: what the class says, else the shop's own tolerance. */
export function lengthMay(shop: Shop, nominal: Mm): Allowed<Mm> {
  const linear = shop.general?.linear
  const most = linear && lengthAllowed(linear, nominal)
  return linear && most !== undefined
    ? { most, by: classOf(linear) }
    : { most: toleranceOf(shop), by: 'the shop’s tolerance' }
}

/** Of an angle, by its shorter leg; undefined where no class was chosen. */
export const angleMay = ({ general }: Shop, shorterLeg: Mm): Allowed<Deg> | undefined =>
  general?.linear && { most: angleAllowed(general.linear, shorterLeg), by: classOf(general.linear) }

/** Of flatness, by the longer side; undefined where no class was chosen. */
export function flatMay({ general }: Shop, longerSide: Mm): Allowed<Mm> | undefined {
  const flat = general?.flat
  const most = flat && flatAllowed(flat, longerSide)
  return flat && most !== undefined ? { most, by: classOf(flat) } : undefined
}

/** `± 4 mm, class B`. */
export const sayMay = ({ most, by }: Allowed<Mm>, reading: Reading): string =>
  `± ${say(most, fineReading(reading))}, ${by}`

/** `1/8 in too long; class B allows 5/32 in`, and whether that is within. */
export function sayOff(
  got: Mm,
  expected: Mm,
  { most, by }: Allowed<Mm>,
  reading: Reading,
): { readonly within: boolean; readonly text: string } {
  const off = got - expected
  const within = Math.abs(off) <= most + sameLength
  const fine = fineReading(reading)
  if (say(Math.abs(off), fine) === say(0, fine)) return { within, text: 'as it must be' }
  const how = `${say(Math.abs(off), fine)} too ${off > 0 ? 'long' : 'short'}`
  return { within, text: within ? `${how}, within ${by}` : `${how}; ${by} allows ${say(most, fine)}` }
}
