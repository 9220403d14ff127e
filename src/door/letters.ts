// Bytes as letters: base64url (RFC 4648) where an address carries them, base45 (RFC 9285) where a code does, since those
// 45 letters take the least room in it.

const letters64 = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_'
const letters45 = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:'

const valuesOf = (letters: string): ReadonlyMap<string, number> =>
  new Map([...letters].map((letter, value) => [letter, value]))
const values64 = valuesOf(letters64)
const values45 = valuesOf(letters45)

/** Without padding. */
export function toBase64url(bytes: Uint8Array): string {
  let text = ''
  for (let at = 0; at < bytes.length; at += 3) {
    const [a = 0, b = 0, c = 0] = bytes.subarray(at, at + 3)
    const group = (a << 16) | (b << 8) | c
    const wanted = Math.min(bytes.length - at, 3) + 1
    for (let place = 0; place < wanted; place++) text += letters64[(group >> (18 - 6 * place)) & 63]
  }
  return text
}

/** Undefined where a letter is none of the 64, or the length is none that bytes have. */
export function fromBase64url(text: string): Uint8Array<ArrayBuffer> | undefined {
  if (text.length % 4 === 1) return undefined
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4))
  let group = 0
  let bits = 0
  let at = 0
  for (const letter of text) {
    const value = values64.get(letter)
    if (value === undefined) return undefined
    group = ((group << 6) | value) & 0xffffff
    bits += 6
    if (bits < 8) continue
    bits -= 8
    bytes[at++] = (group >> bits) & 0xff
  }
  return bytes
}

export function toBase45(bytes: Uint8Array): string {
  let text = ''
  for (let at = 0; at < bytes.length; at += 2) {
    const [a = 0, b] = bytes.subarray(at, at + 2)
    let value = b === undefined ? a : a * 256 + b
    for (let place = b === undefined ? 2 : 3; place > 0; place--) {
      text += letters45[value % 45]
      value = Math.floor(value / 45)
    }
  }
  return text
}

/** Undefined where it is not what `toBase45` writes. */
export function fromBase45(text: string): Uint8Array<ArrayBuffer> | undefined {
  if (text.length % 3 === 1) return undefined
  const bytes: number[] = []
  for (let at = 0; at < text.length; at += 3) {
    const group = [...text.slice(at, at + 3)].map((letter) => values45.get(letter))
    if (group.some((value) => value === undefined)) return undefined
    const [a = 0, b = 0, c = 0] = group as number[]
    const value = a + 45 * b + 2025 * c
    if (value > (group.length === 3 ? 0xffff : 0xff)) return undefined
    if (group.length === 3) bytes.push(value >> 8)
    bytes.push(value & 0xff)
  }
  return new Uint8Array(bytes)
}
