// Another version of the build, as a shop's server gets it: put over the files of the last one while pages are open.
import { cp, mkdtemp, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import type { Page } from '@playwright/test'
import { built, expect } from './serve.ts'

/** A copy of the build in a folder of its own, to be changed. */
export async function copyOfBuild(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'longpoint-dist-'))
  await cp(built, folder, { recursive: true })
  return folder
}

export const removeCopy = (folder: string) => rm(folder, { recursive: true, force: true })

/**
 * Puts the next version in place: all its programs have other names, it wants a database one version higher, its page
 * has this title, and the service worker lists them all.
 */
export async function publish(folder: string, title: string): Promise<void> {
  const files = await readdir(folder, { recursive: true })
  const programs = files.filter((name) => /^assets.[^/\\]+\.js$/.test(name)).map((name) => basename(name))
  const renamed = (text: string) =>
    programs.reduce((done, name) => done.replaceAll(name, name.replace(/\.js$/, `-${title}.js`)), text)
  const opens = /indexedDB\.open\((\w+),(\w+)\)/
  let opening = 0
  for (const file of files.filter((name) => /\.(js|html)$/.test(name) && name !== 'sw.js')) {
    const changed = renamed(await readFile(join(folder, file), 'utf8'))
    if (opens.test(changed)) opening += 1
    await writeFile(join(folder, file), changed.replace(opens, 'indexedDB.open($1,$2+1)'))
  }
  expect(opening).toBe(1)
  for (const name of programs)
    await rename(join(folder, 'assets', name), join(folder, 'assets', renamed(name)))
  const page = join(folder, 'index.html')
  const html = await readFile(page, 'utf8')
  await writeFile(page, html.replace(/<title>[^<]*/, `<title>Longpoint ${title}`))
  const worker = join(folder, 'sw.js')
  const revision = /(index\.html[^{}]*?revision:\s*[`'"])\w+|(revision:\s*[`'"])\w+(?=[^{}]*index\.html)/
  const before = renamed(await readFile(worker, 'utf8'))
  const after = before.replace(revision, (_, first, second) => `${first ?? second}${title}`)
  expect(after).not.toBe(before)
  // Last and at once, as a browser may look for it at any time.
  await writeFile(join(folder, 'sw.next'), after)
  await rename(join(folder, 'sw.next'), worker)
}

/** What the browser does hourly by itself. */
export const lookForUpdate = (page: Page) =>
  page.evaluate(async () => {
    await (await navigator.serviceWorker.ready).update()
  })

/** Waits until the offline copy is complete and rules this page. */
export const installed = (page: Page) =>
  page.evaluate(async () => {
    await navigator.serviceWorker.ready
    if (!navigator.serviceWorker.controller)
      await new Promise((done) => {
        navigator.serviceWorker.addEventListener('controllerchange', done, { once: true })
      })
  })
