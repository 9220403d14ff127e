/// <reference lib="webworker" />
import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from 'workbox-precaching'
import { NavigationRoute, registerRoute } from 'workbox-routing'
import { keepShared, shareAddress } from './shared.ts'

declare const self: ServiceWorkerGlobalScope & {
  /** Put in by the build: every file of the app. */
  __WB_MANIFEST: { url: string; revision: string | null }[]
}

cleanupOutdatedCaches()
precacheAndRoute(self.__WB_MANIFEST)
// Every page of this app is index.html: the station stands behind the # of the address.
registerRoute(new NavigationRoute(createHandlerBoundToURL('index.html')))

// What other programs share with the installed app stays on this device.
const { scope } = self.registration
registerRoute(
  ({ url }) => url.href === new URL(shareAddress, scope).href,
  ({ request }) => keepShared(request, scope),
  'POST',
)

// The page that is open at the first visit is taken under this worker at once, so that it already
// works with the server gone. A later version reaches here only after a person said so.
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()))

// Never skipWaiting by itself: nothing may change under a person's hands between two cuts.
self.addEventListener('message', (event) => {
  if (event.data?.type === 'SKIP_WAITING') event.waitUntil(self.skipWaiting())
})
