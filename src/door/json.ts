import { bad, good, type Result } from '../core/result.ts'

/** Characters. A shop's log of ten years is about a tenth of it; more would stop the tablet at the saw. */
export const mostCharacters = 64_000_000

/** Where the quoted text that begins at `start` ends; a quote that is never closed ends with its line or the text. */
function behindQuotes(text: string, start: number): number {
  for (let at = start + 1; at < text.length; at++) {
    const letter = text[at]
    if (letter === '\\') at += 1
    else if (letter === '"' || letter === '\n') return at + 1
  }
  return text.length
}

/** NaN and Infinity are what a careless program writes; JSON has no such numbers, so say that and not "token N". */
function numberThatIsNone(text: string): string | undefined {
  const sought = /["\n]|-?\b(?:NaN|Infinity)\b/g
  let line = 1
  for (let found = sought.exec(text); found; found = sought.exec(text)) {
    if (found[0] === '\n') line += 1
    else if (found[0] === '"') {
      sought.lastIndex = behindQuotes(text, found.index)
      if (text[sought.lastIndex - 1] === '\n') line += 1
    } else
      return `${found[0]} in line ${line} is no number that can be measured; it must be a plain number, or text as typed.`
  }
  return undefined
}

/** The value that a text holds, or in words why it holds none. `what` as in "job file". */
export function parseJson(text: string, what: string): Result<unknown> {
  if (text.length > mostCharacters)
    return bad(
      'too-large',
      `This file has ${text.length} characters; a ${what} has at most ${mostCharacters}.`,
    )
  if (text.trim() === '') return bad('not-json', `This is no ${what}: it is empty.`)
  try {
    // A byte-order mark is what some editors put in front; it is no part of the text.
    return good(JSON.parse(text.replace(/^\uFEFF/, '')))
  } catch (error) {
    const none = numberThatIsNone(text)
    if (none) return bad('not-a-number', none)
    const why = error instanceof Error ? error.message.replaceAll(/\s+/g, ' ') : String(error)
    return bad('not-json', `This is no ${what}: it is a file of another kind, or damaged (not JSON: ${why}).`)
  }
}
