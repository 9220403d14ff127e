const words: Readonly<Record<string, string>> = {
  QuotaExceededError:
    'This device has no room left, so nothing was saved. What was saved before is safe. Make room (other sites, downloads), then do it again; what is on the screen is still here.',
  VersionError:
    'What is kept on this device was written by a newer version of this program. Load the page again to get that version; nothing was changed.',
  SecurityError:
    'This browser does not let the page keep anything on this device. Allow site data for it, or open it in a normal window.',
}

const noDisk =
  'This browser keeps nothing on this device (a private window, or site data turned off), so nothing can be saved. Open the page in a normal window.'

/** A failure that is already in words. */
class Said extends Error {}

export const said = (text: string, cause?: unknown): Error => new Said(text, { cause })

export const withoutDisk = (): Error => said(noDisk)

/** The failure in words for the person, with what to do; the browser's own error stays as its cause. */
export function failure(error: unknown, doing: 'read' | 'write'): Error {
  if (error instanceof Said) return error
  const name = error instanceof Error || error instanceof DOMException ? error.name : ''
  const text = words[name]
  if (text) return said(text, error)
  const detail =
    error instanceof Error || error instanceof DOMException ? error.message || name : String(error)
  const otherwise =
    doing === 'write'
      ? `The disk of this device did not take it, so nothing was saved (${detail}). What was saved before is safe. Do it again.`
      : `The browser does not open what it keeps for this page (${detail}). Load the page again; if that does not help, close the browser or start the device again.`
  return said(otherwise, error)
}
