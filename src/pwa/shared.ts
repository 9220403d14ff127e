// What another program of the device shares with the installed app. The browser posts it as a form; the service worker
// takes that post, so that nothing of it goes to a server, and lays the files in a cache of this device until the page
// has shown them. Used on both sides: by the service worker, and by the page that it sends the browser to.

/** Where the form is posted to, beside the app's own page: as the manifest has it. */
export const shareAddress = 'shared'

const most = 20

/** Apps of other folders at the same address have caches of their own names. */
const cacheName = (scope: string): string => `shared with ${scope}`

/** The files of the form, or its words as one file, where it has none. */
function filesOf(form: FormData): readonly File[] {
  // A form with no file chosen posts one that has neither name nor content.
  const files = form
    .getAll('file')
    .filter((given) => given instanceof File && (given.name !== '' || given.size > 0))
  if (files.length > 0) return (files as File[]).slice(0, most)
  const words = ['text', 'url'].flatMap((name) => {
    const given = form.get(name)
    return typeof given === 'string' && given.trim() !== '' ? [given] : []
  })
  return words.length > 0 ? [new File([words.join('\n')], 'what was shared')] : []
}

/** Keeps what a post brings, in place of what was shared before, and sends the browser to where it is looked at. */
export async function keepShared(request: Request, scope: string): Promise<Response> {
  try {
    await caches.delete(cacheName(scope))
    const cache = await caches.open(cacheName(scope))
    for (const [at, file] of filesOf(await request.formData()).entries())
      await cache.put(
        new URL(`${shareAddress}/${at}`, scope),
        new Response(file, { headers: { 'x-name': encodeURIComponent(file.name) } }),
      )
  } catch (error) {
    // No form, or no room: the page that comes next finds nothing, and says so.
    console.warn('What was shared could not be kept:', error)
  }
  return Response.redirect(new URL('./#/shared', scope), 303)
}

/** What was shared last, until it is forgotten; an empty list where nothing was. */
export async function sharedFiles(scope: string): Promise<readonly File[]> {
  if (typeof caches === 'undefined' || !(await caches.has(cacheName(scope)))) return []
  const cache = await caches.open(cacheName(scope))
  const kept = await cache.matchAll()
  return Promise.all(
    kept.map(
      async (one) => new File([await one.blob()], decodeURIComponent(one.headers.get('x-name') ?? 'file')),
    ),
  )
}

export async function forgetShared(scope: string): Promise<void> {
  if (typeof caches !== 'undefined') await caches.delete(cacheName(scope))
}
