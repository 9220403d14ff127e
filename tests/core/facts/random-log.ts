import type { Fact } from '../../../src/core/facts.ts'
import type { Dice } from '../../prove/seed.ts'
import { blank, piece, tablet, tube } from './log.ts'

/** What three tablets write that now and then hear of each other: cuts, undos (also of undos), steel, ticks. */
export function randomLog(roll: Dice, size: number): readonly Fact[] {
  const tablets = ['a', 'b', 'c'].map(tablet)
  const all: Fact[] = []
  const someFact = () => (all.length > 0 && roll() < 0.95 ? roll.pick(all).id : `x:${roll.whole(1, 3)}`)
  while (all.length < size) {
    const one = roll.pick(tablets)
    if (roll() < 0.4) one.see(...all)
    const of = { job: roll.pick(['J1', 'J2']), nest: roll.pick(['N1', 'N2']), copy: roll.whole(1, 3) }
    const stick = `S${roll.whole(1, 3)}`
    const rack = roll() < 0.5 ? someFact() : `${someFact()}/${roll.whole(1, 2)}`
    const ends = ['cut', 'mill'] as const
    const write = roll.pick([
      () => one.write('cut', blank(stick), of),
      () => one.write('cut', piece(someFact()), of),
      () => one.write('undo', { fact: someFact() }, of),
      () => one.write('undo', { fact: someFact() }, of),
      () => one.write('accepted', { nest: of.nest }, of),
      () => one.write('bought', { section: tube, length: 6000, count: roll.whole(1, 3) }),
      () => one.write('found', { section: tube, length: roll.whole(100, 6000), ends: ['cut', 'cut'] }),
      () => one.write('opened', roll() < 0.5 ? { stick } : { stick, rack }, of),
      () => one.write('kept', { section: tube, stick, length: roll.whole(300, 900), ends }, of),
      () => one.write('discarded', { rack }),
      () => one.write('corrected', { rack, length: roll.whole(100, 6000) }),
      () => one.write('gauged', { of: `length:${roll.whole(1, 3)}`, value: roll.whole(390, 410) }, of),
      () => one.write('tacked', { step: `step-${roll.whole(1, 3)}` }, of),
      () =>
        one.write('cut', blank(stick), {
          ...of,
          v: roll.whole(1, 2),
          kind: roll.pick(['cut', 'bent']) as 'cut',
        }),
    ])
    all.push(write())
  }
  return all
}

export function shuffled<T>(roll: Dice, list: readonly T[]): readonly T[] {
  const out = [...list]
  for (let at = out.length - 1; at > 0; at--) {
    const other = roll.whole(0, at)
    ;[out[at], out[other]] = [out[other]!, out[at]!]
  }
  return out
}
