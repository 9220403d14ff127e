import { bad, good, type Result } from '../core/result.ts'
import { type JobFile, writeJobFile } from './job-file.ts'
import { fromBase45, fromBase64url, toBase45, toBase64url } from './letters.ts'
import { crc32, pack, unpack } from './packed.ts'

// A job file that goes from device to device with no network: in the # part of an address, which no browser sends to a
// server, or in a row of square codes that the other device's camera reads. Both carry the same text as a file does, and
// it goes through the same door.

/** Characters of a link that mail and messages still carry whole. */
export const longestLink = 30_000

/** Codes that a person still has the patience for. */
export const mostCodes = 60

/** Letters of one code, its head left out: few enough that a camera reads it from a screen at arm’s length. */
export const lettersPerCode = 660

const wayOut = 'Save a file instead, and carry that.'

/** What stands behind `#/open/`. Fails in words where it would be too long for a link. */
export async function writeLink(file: JobFile): Promise<Result<string>> {
  const text = `1.${toBase64url(await pack(writeJobFile(file, 0)))}`
  return text.length > longestLink
    ? bad(
        'too-long',
        `This would be a link of ${text.length} characters; most programs carry at most ${longestLink}. ${wayOut}`,
      )
    : good(text)
}

/** The text of the job file in what stands behind `#/open/`, not read yet. */
export async function readLink(text: string): Promise<Result<string>> {
  // An address may have been copied with the space or the line that stood around it.
  const [, version, letters] = /^(\d{1,4})\.([\s\S]*)$/.exec(text.trim()) ?? []
  if (version === undefined || letters === undefined)
    return bad('not-a-link', 'This link carries no job; nothing was taken.')
  if (version !== '1')
    return bad(
      'newer-version',
      `This link is of version ${version}; this program reads version 1. Open it with a newer one; nothing was taken.`,
    )
  if (letters.length > 2 * longestLink)
    return bad(
      'too-long',
      `This link has ${letters.length} characters; at most ${2 * longestLink} are read. Nothing was taken.`,
    )
  const bytes = fromBase64url(letters)
  return bytes
    ? unpack(bytes)
    : bad('damaged', 'This link is damaged or was cut off on the way; nothing was taken.')
}

const head = 'TUBE1'

/** Texts of the codes, in order, each with its place: `TUBE1:` check sum `:` place `:` of how many `:` letters. */
export async function writeCodes(file: JobFile): Promise<Result<readonly string[]>> {
  const bytes = await pack(writeJobFile(file, 0))
  const letters = toBase45(bytes)
  const of = Math.ceil(letters.length / lettersPerCode)
  if (of > mostCodes)
    return bad('too-long', `This would be ${of} codes; at most ${mostCodes} are shown. ${wayOut}`)
  const sum = crc32(bytes)
  return good(
    Array.from({ length: of }, (_, at) => {
      const piece = letters.slice(at * lettersPerCode, (at + 1) * lettersPerCode)
      return `${head}:${sum}:${at + 1}:${of}:${piece}`
    }),
  )
}

/** Codes of one job that were read so far, in any order. */
export interface Codes {
  readonly sum: string
  readonly of: number
  /** By place, from 1. */
  readonly read: ReadonlyMap<number, string>
}

/**
 * One more code. A code of another job begins anew, since that is what is being held before the camera now. Fails in
 * words, with nothing changed, for a code that is none of ours.
 */
export function withCode(codes: Codes | null, text: string): Result<Codes> {
  const found = /^TUBE(\d{1,3}):([0-9A-F]{8}):(\d{1,3}):(\d{1,3}):([0-9A-Z $%*+\-./:]{1,4400})$/.exec(text)
  if (!found) return bad('not-ours', 'This code carries no job of Longpoint.')
  const [, version, sum = '', place, count, letters = ''] = found
  if (version !== '1')
    return bad('newer-version', `This code is of version ${version}; this program reads version 1.`)
  const [at, of] = [Number(place), Number(count)]
  if (at < 1 || at > of || of > mostCodes) return bad('damaged', 'This code is damaged; nothing was taken.')
  const same = codes?.sum === sum && codes.of === of
  return good({ sum, of, read: new Map([...(same ? codes.read : []), [at, letters]]) })
}

export const isWhole = (codes: Codes): boolean => codes.read.size === codes.of

/** The text of the job file that the codes carry, not read yet. All must have been read. */
export async function readCodes(codes: Codes): Promise<Result<string>> {
  if (!isWhole(codes))
    return bad('not-whole', `${codes.read.size} of ${codes.of} codes were read; the others are missing.`)
  const letters = Array.from({ length: codes.of }, (_, at) => codes.read.get(at + 1) ?? '').join('')
  const bytes = fromBase45(letters)
  if (!bytes || crc32(bytes) !== codes.sum)
    return bad(
      'damaged',
      'A code was read wrong, or the codes are damaged. Read them once more; nothing was taken.',
    )
  return unpack(bytes)
}
