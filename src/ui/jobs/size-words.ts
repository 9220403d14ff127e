import type { Frame } from '../../core/frame/frame.ts'
import { say } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { count } from '../words.ts'

/** What was asked for, in a few words: `24 in across flats, 30 in overall height`. */
export function sizeWords(frame: Frame, shop: Shop): string {
  const asked = frame.measures.filter((measure) => measure.asked).slice(0, 2)
  if (asked.length === 0) return count(frame.members.length, 'piece')
  return asked.map(({ mm, name }) => `${say(mm, shop.reading)} ${name}`).join(', ')
}
