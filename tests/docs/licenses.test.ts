import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { dependencies } from '../../package.json'
import lock from '../../package-lock.json'
import { licenses } from '../../src/ui/shop/licenses.ts'

interface Package {
  readonly version: string
  readonly license?: string
  readonly dependencies?: Readonly<Record<string, string>>
}
const packages = lock.packages as unknown as Readonly<Record<string, Package>>

/** What goes into the build: the dependencies, the service worker's own, and what these need. */
function built(): readonly string[] {
  const found = new Set<string>()
  const walk = (name: string) => {
    if (found.has(name) || name.startsWith('@types/')) return
    found.add(name)
    for (const next of Object.keys(packages[`node_modules/${name}`]?.dependencies ?? {})) walk(next)
  }
  for (const name of [...Object.keys(dependencies), 'workbox-precaching', 'workbox-routing']) walk(name)
  return [...found].sort()
}

test('About lists every package of the build with the version and the license that the lock file has', () => {
  expect(licenses).toEqual(
    built().map((name) => {
      const { version, license } = packages[`node_modules/${name}`]!
      return { name, version, license }
    }),
  )
})

test('each of them may be used in a shop’s own copy: a permissive license, its text beside the app', () => {
  const texts = readFileSync(new URL('../../public/licenses.txt', import.meta.url), 'utf8')
  for (const { name, version, license } of licenses) {
    expect(license, name).toMatch(/^(MIT|ISC|Unlicense|\(MIT OR Apache-2\.0\)|BSD-[23]-Clause|Apache-2\.0)$/)
    expect(texts).toContain(`${name} ${version} (${license})`)
  }
})

test('dependencies are pinned to one version each', () => {
  for (const [name, version] of Object.entries(dependencies)) expect(version, name).toMatch(/^\d+\.\d+\.\d+$/)
})
