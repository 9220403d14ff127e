// What the browser must fetch before the first screen: the scripts that index.html names and all that those
// import before they run. Pieces loaded later (worker, solver, a turnable view) do not count.
import { readFileSync } from 'node:fs'
import { join, posix } from 'node:path'
import { pathToFileURL } from 'node:url'
import { gzipSync } from 'node:zlib'

/** Aim for the initial JavaScript, in kB (1000 bytes) after gzip. */
export const aim = 150

/** @param {string} dir built folder @returns {{ file: string, raw: number, gzip: number }[]} bytes */
export function initialScripts(dir) {
  const page = readFileSync(join(dir, 'index.html'), 'utf8')
  const queue = [...page.matchAll(/<(?:script|link)\b[^>]*\b(?:src|href)="([^"]+\.m?js)"/g)].map((found) =>
    posix.normalize(found[1] ?? ''),
  )
  /** @type {Map<string, { file: string, raw: number, gzip: number }>} */
  const seen = new Map()
  for (let file = queue.pop(); file !== undefined; file = queue.pop()) {
    if (seen.has(file)) continue
    const bytes = readFileSync(join(dir, file))
    seen.set(file, { file, raw: bytes.length, gzip: gzipSync(bytes, { level: 9 }).length })
    // Static imports of a built file: import ... from "./x.js", import "./x.js", export ... from "./x.js".
    for (const found of bytes
      .toString('utf8')
      .matchAll(/\b(?:from|import)\s*["'`](\.{1,2}\/[^"'`]+\.js)["'`]/g))
      queue.push(posix.join(posix.dirname(file), found[1] ?? ''))
  }
  if (seen.size === 0) throw new Error(`${dir}/index.html names no script`)
  return [...seen.values()]
}

/** @param {string} dir @returns {boolean} whether the aim is met; prints the sizes */
export function report(dir) {
  const scripts = initialScripts(dir)
  const total = scripts.reduce((sum, { gzip }) => sum + gzip, 0) / 1000
  for (const { file, raw, gzip } of scripts)
    console.log(`  ${file}  ${(raw / 1000).toFixed(1)} kB, ${(gzip / 1000).toFixed(1)} kB gzip`)
  const ok = total <= aim
  console.log(
    `initial JavaScript: ${total.toFixed(1)} kB gzip (aim: at most ${aim} kB) ${ok ? 'ok' : 'TOO MUCH'}`,
  )
  return ok
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href)
  process.exit(report(process.argv[2] ?? 'dist') ? 0 : 1)
