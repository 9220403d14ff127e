import { createRoot } from 'react-dom/client'
import fiveSided from '../demo-data/five-sided-frame.json?raw'
import hexagon from '../demo-data/hexagon-top.json?raw'
import tenSided from '../demo-data/ten-sided-pedestal.json?raw'
import { makeApp } from './app/app.ts'
import { watchUpdates } from './pwa/register.ts'
import { forgetShared, sharedFiles } from './pwa/shared.ts'
import { openDisk } from './storage/disk.ts'
import { AppContext } from './ui/app.ts'
import { Shell } from './ui/shell/shell.tsx'
import { browserSolver } from './worker/client.ts'

// The composition root: the only file that sees every folder. It gives the app its disk, its clock, its dice, the
// nest in the worker and the samples, and puts the shell on the page.

const hex = (bytes: Uint8Array): string =>
  Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')

/** SHA-256. Browsers give it to safe addresses only (https, or this machine), as they do the offline copy. */
async function hash(text: string): Promise<string> {
  if (!crypto.subtle)
    throw new Error('Open Longpoint by an https address or on this machine: a nest cannot be kept otherwise.')
  return hex(new Uint8Array(await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text))))
}

/** A shop that has said nothing yet measures as people do where its browser comes from. */
function usualUnits(): 'in' | 'mm' {
  // Not every device says a language that there is: a bare Linux says "C".
  const [language, ...rest] = (navigator.language || 'en-US').split(/[-_]/)
  const region = rest.find((part) => /^[A-Z]{2}$/i.test(part))?.toUpperCase()
  return region === 'US' || (region === undefined && language === 'en') ? 'in' : 'mm'
}

/** The folder of this page, as the service worker names it. */
const scope = new URL('./', location.href).href

const app = makeApp({
  disk: openDisk(),
  solver: browserSolver(),
  clock: { now: () => new Date().toISOString() },
  ids: { make: () => hex(crypto.getRandomValues(new Uint8Array(6))) },
  hash,
  shared: { files: () => sharedFiles(scope), forget: () => forgetShared(scope) },
  units: usualUnits(),
  samples: [
    { name: 'Hexagon table top, in inches', text: hexagon },
    { name: 'Ten-sided pedestal table, three of them, in mm', text: tenSided },
    { name: 'Five-sided bench frame of rectangular tube, in mm', text: fiveSided },
  ],
})

const root = document.getElementById('root')
if (root)
  createRoot(root).render(
    <AppContext value={app}>
      <Shell updates={watchUpdates()} />
    </AppContext>,
  )
void app.actions.open()
