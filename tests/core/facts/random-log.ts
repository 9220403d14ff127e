import type { Fact } from '../../../src/core/facts.ts'
import type { Dice } from '../../prove/seed.ts'
import { blank, piece, spoilt, tablet, tube } from './log.ts'

const blankOf = (cut: string) => ({ ...blank(''), from: { piece: cut } })

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
      () => one.write('scrapped', { stick }, of),
      () => one.write('loaded', { stick, length: roll.whole(5990, 6020), ends: ['mill', 'mill'] }, of),
      () =>
        one.write(
          'miscut',
          spoilt(roll() < 0.5 ? blank(stick) : blankOf(someFact()), roll.whole(0, 600)),
          of,
        ),
      () => one.write('miscut', spoilt(piece(someFact()), roll.whole(0, 600)), of),
      () => one.write('measured', { piece: someFact(), what: 'long point', got: roll.whole(590, 610) }, of),
      () => one.write('stopMoved', { setUp: 'A/blank/1', by: roll.whole(-2, 2) }, of),
      () => one.write('bladeChanged', { saw: 'saw-1', blade: roll.pick(['fine', 'coarse']), kerf: 2 }),
      () => one.write('cutApart', { why: 'out of square' }, of),
      () => one.write('discarded', { rack }),
      () => one.write('corrected', { rack, length: roll.whole(100, 6000) }),
      () => one.write('gauged', { of: `length:${roll.whole(1, 3)}`, value: roll.whole(390, 410) }, of),
      () => one.write('noted', { of: `step-${roll.whole(1, 3)}`, text: `note ${roll.whole(1, 9)}` }, of),
      () =>
        one.write(
          'setTo',
          {
            process: 'wire, short-circuit',
            wall: roll.whole(2, 3),
            joint: 'outside',
            wire: '.030',
            gas: '75/25',
            volts: roll.whole(16, 19),
            wireSpeed: 180,
          },
          of,
        ),
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
