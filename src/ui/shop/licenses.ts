/** What the built app holds of others' work; a test compares it with what is installed. */
export const licenses: readonly {
  readonly name: string
  readonly version: string
  readonly license: string
}[] = [
  { name: 'highs', version: '1.15.3', license: 'MIT' },
  { name: 'idb', version: '8.0.4', license: 'ISC' },
  { name: 'qr', version: '0.7.0', license: '(MIT OR Apache-2.0)' },
  { name: 'react', version: '19.3.1', license: 'MIT' },
  { name: 'react-dom', version: '19.3.1', license: 'MIT' },
  { name: 'regexparam', version: '3.0.0', license: 'MIT' },
  { name: 'scheduler', version: '0.28.0', license: 'MIT' },
  { name: 'use-sync-external-store', version: '1.7.0', license: 'MIT' },
  { name: 'valibot', version: '1.5.0', license: 'MIT' },
  { name: 'workbox-core', version: '7.4.1', license: 'MIT' },
  { name: 'workbox-precaching', version: '7.4.1', license: 'MIT' },
  { name: 'workbox-routing', version: '7.4.1', license: 'MIT' },
  { name: 'workbox-strategies', version: '7.4.1', license: 'MIT' },
  { name: 'workbox-window', version: '7.4.1', license: 'MIT' },
  { name: 'wouter', version: '3.13.0', license: 'Unlicense' },
  { name: 'zustand', version: '5.1.0', license: 'MIT' },
]
