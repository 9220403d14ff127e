import type { Plate } from '../frame/frame.ts'
import type { Mm } from '../units.ts'

/**
 * How a top that is cut last is marked: from the frame as built, which is never quite the one drawn. Absent where it is cut
 * by its numbers. Common practice.
 */
export function scribedWords(
  plate: Pick<Plate, 'name' | 'scribed'>,
  say: (mm: Mm) => string,
): string | undefined {
  const { scribed } = plate
  if (scribed === undefined) return undefined
  const where =
    scribed === 0 ? 'on the line' : `${say(Math.abs(scribed))} ${scribed > 0 ? 'outside' : 'inside'} the line`
  return `Lay the ${plate.name.toLowerCase()} on the frame as built, scribe round the frame, and cut ${where}.`
}
