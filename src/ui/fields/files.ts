import { mostBytes } from '../../app/state.ts'
import { bad, good, type Result } from '../../core/result.ts'

/** Hands the person a file to keep: the browser's own saving, also offline. */
export function saveFile(name: string, text: string, type = 'application/json'): void {
  const address = URL.createObjectURL(new Blob([text], { type }))
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  // The browser reads the blob after the click has returned.
  setTimeout(() => URL.revokeObjectURL(address), 60_000)
}

/** The text of a given file; its size is looked at before it is read, since a film would fill the memory. */
export async function textOf(file: File): Promise<Result<string>> {
  const mega = 1_000_000
  if (file.size > mostBytes)
    return bad(
      'too-large',
      `${file.name} has ${Math.ceil(file.size / mega)} MB; a file of at most ${mostBytes / mega} MB is read. Nothing was changed.`,
    )
  try {
    return good(wordsOf(new Uint8Array(await file.arrayBuffer())))
  } catch {
    // Moved, taken out with its card, or kept from the browser since it was chosen.
    return bad(
      'not-given',
      `${file.name} cannot be read: this device does not give it to the browser. Choose it again.`,
    )
  }
}

/** Lists come from spreadsheets, which write UTF-8, UTF-16, or the letters of an older Windows, where ½ is one byte. */
function wordsOf(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes)
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes)
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return new TextDecoder('windows-1252').decode(bytes)
  }
}

/** A name that every file system takes: letters, digits and dashes. */
export function fileName(name: string, ending: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)
  return `${plain || 'job'}.${ending}`
}
