import type { RackPiece } from '../facts.ts'
import { stickName } from './rack.ts'

/** Letters and digits that are not taken for one another when they are painted on steel: no 0 O Q, 1 I, 2 Z, 5 S, 8 B, U V. */
const signs = 'ACDEFGHJKLMNPRTWXY34679'

const shortest = 3
const longest = 8

/**
 * What will be painted on the drop of this stick, whenever it is kept and by whom: it follows from nest and stick alone, so
 * that paper that is printed before says it too. In full; `rackMarks` shortens it.
 */
export const dropSign = (nest: string, stick: string): string => signsOf(stickName(nest, stick))

/** A long name of signs for an id, the same on every device: FNV-1a, digit by digit. */
function signsOf(id: string): string {
  let hash = 0x811c9dc5
  let said = ''
  for (let round = 0; said.length < longest; round++) {
    for (const sign of `${round}${id}`) hash = Math.imul(hash ^ sign.codePointAt(0)!, 0x01000193) >>> 0
    let left = hash
    for (let at = 0; at < 4; at++) {
      said += signs[left % signs.length]
      left = Math.floor(left / signs.length)
    }
  }
  return said
}

/**
 * What is painted on each piece of the rack, by its id: three signs of its own sign, or else of its id alone, so that they
 * never change and two devices say the same. Where two pieces that lie there would be marked alike, both get one sign more:
 * what was painted before still reads as the beginning of it.
 */
export function rackMarks(rack: readonly Pick<RackPiece, 'id' | 'sign'>[]): ReadonlyMap<string, string> {
  const all = new Map(rack.map(({ id, sign }) => [id, sign && sign.length >= longest ? sign : signsOf(id)]))
  const marks = new Map<string, string>()
  let left = [...all.keys()]
  for (let long = shortest; left.length > 0; long++) {
    const count = new Map<string, number>()
    const begin = (id: string) => all.get(id)!.slice(0, long)
    for (const id of left) count.set(begin(id), (count.get(begin(id)) ?? 0) + 1)
    const alone = (id: string) => count.get(begin(id)) === 1 || long === longest
    for (const id of left.filter(alone)) marks.set(id, begin(id))
    left = left.filter((id) => !alone(id))
  }
  return marks
}
