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
