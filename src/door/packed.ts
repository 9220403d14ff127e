import { bad, good, type Result } from '../core/result.ts'

/** Characters that a link or a row of codes may unpack to: far more than one job, far less than a tablet's memory. */
export const mostUnpacked = 8_000_000

/** Bytes of a text, made small (raw deflate, RFC 1951). */
export async function pack(text: string): Promise<Uint8Array> {
  const small = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw'))
  return new Uint8Array(await new Response(small).arrayBuffer())
}

/**
 * The text again. It stops at `mostUnpacked` bytes: a few bytes can be made to unpack to more than any device holds.
 * Fails in words, also for bytes that are no packed text.
 */
export async function unpack(bytes: Uint8Array<ArrayBuffer>, most = mostUnpacked): Promise<Result<string>> {
  const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw')).getReader()
  const pieces: Uint8Array<ArrayBuffer>[] = []
  let size = 0
  try {
    for (let next = await reader.read(); !next.done; next = await reader.read()) {
      size += next.value.length
      if (size > most) {
        await reader.cancel().catch(() => undefined)
        return bad(
          'too-large',
          `What is carried here unpacks to more than ${most} bytes, which no job does; nothing was taken.`,
        )
      }
      pieces.push(next.value)
    }
    return good(new TextDecoder('utf-8', { fatal: true }).decode(await new Blob(pieces).arrayBuffer()))
  } catch {
    return bad('not-packed', 'What is carried here is damaged or was cut off on the way; nothing was taken.')
  }
}

const crcTable = Uint32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1
  return crc >>> 0
})

/** CRC-32 as in ISO 3309 and ITU-T V.42, as eight hex digits: tells two jobs apart, and a slip of a code. */
export function crc32(bytes: Uint8Array): string {
  let crc = 0xffffffff
  for (const byte of bytes) crc = (crcTable[(crc ^ byte) & 0xff] as number) ^ (crc >>> 8)
  return ((crc ^ 0xffffffff) >>> 0).toString(16).toUpperCase().padStart(8, '0')
}
