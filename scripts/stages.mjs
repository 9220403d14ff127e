// What the test, prove and bench runners share: run a stage with its output passed on, and count tests.
import { spawn } from 'node:child_process'
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { join, relative, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { stripVTControlCharacters } from 'node:util'

export const root = resolve(fileURLToPath(import.meta.url), '../..')
const reports = join(root, 'node_modules/.cache/longpoint')

/** @typedef {{ passed: number, failed: number }} Counts */

/** What the closing lines name: failed tests, and those that passed only when they were run again. @type {string[]} */
const told = []

/** Runs a program of node_modules (or a script) under this Node; resolves to whether it ended well.
 * @param {string} script path from the root @param {string[]} args @param {NodeJS.ProcessEnv} [env]
 * @returns {Promise<boolean>} */
export function run(script, args = [], env = {}) {
  console.log(`\n— ${[script.replace(/^node_modules\//, ''), ...args].join(' ')}`)
  return new Promise((done) => {
    const child = spawn(process.execPath, [join(root, script), ...args], {
      cwd: root,
      stdio: 'inherit',
      env: { ...process.env, ...env },
    })
    child.on('error', () => done(false))
    child.on('close', (code) => done(code === 0))
  })
}

export const vite = 'node_modules/vite/bin/vite.js'
export const vitest = 'node_modules/vitest/vitest.mjs'
export const playwright = 'node_modules/@playwright/test/cli.js'
export const biome = 'node_modules/@biomejs/biome/bin/biome'

/** @param {string} name @returns {string} path of a fresh report, its folder there and no old one in it */
function report(name) {
  mkdirSync(reports, { recursive: true })
  const file = join(reports, `${name}-${process.pid}.json`)
  rmSync(file, { force: true })
  return file
}

/** A stage that ended badly without a failed test (a file that did not load, no report at all) counts as one.
 * @param {boolean} ok @param {string} file @param {(report: any) => Counts} read @returns {Counts} */
function counted(ok, file, read) {
  let counts = { passed: 0, failed: 0 }
  try {
    counts = read(JSON.parse(readFileSync(file, 'utf8')))
    rmSync(file, { force: true })
  } catch {
    ok = false
  }
  return !ok && counts.failed === 0 ? { passed: counts.passed, failed: 1 } : counts
}

/** @param {string[]} args @param {NodeJS.ProcessEnv} [env] @returns {Promise<Counts>} */
export async function runVitest(args, env) {
  const file = report('vitest')
  const ok = await run(
    vitest,
    ['run', ...args, '--reporter=default', '--reporter=json', `--outputFile.json=${file}`],
    env,
  )
  return counted(ok, file, (found) => ({
    passed: tell(found),
    // A suite that fails to load has no failed test of its own.
    failed: found.numFailedTests + found.testResults.filter(silentFailure).length,
  }))
}

/** Notes what failed. @param {any} found a report of vitest @returns {number} how many passed */
function tell(found) {
  for (const file of found.testResults) {
    if (silentFailure(file)) told.push(`failed: ${relative(root, file.name)} could not be loaded`)
    for (const test of file.assertionResults)
      if (test.status === 'failed')
        told.push(`failed: ${relative(root, file.name)}: ${test.fullName}${why(test.failureMessages?.[0])}`)
  }
  return found.numPassedTests
}

/** What a test failed of, on one line and without its stack. @param {string | undefined} message */
function why(message) {
  const [words = ''] = stripVTControlCharacters(message ?? '').split(/\n\s+at /)
  const line = words.replaceAll(/\s+/g, ' ').trim()
  return line ? ` (${line.slice(0, 300)})` : ''
}

/** @param {{ status: string, assertionResults: { status: string }[] }} file */
function silentFailure(file) {
  return file.status === 'failed' && !file.assertionResults.some((test) => test.status === 'failed')
}

/** @param {NodeJS.ProcessEnv} [env] @returns {Promise<Counts>} */
export async function runPlaywright(env) {
  const file = report('playwright')
  const ok = await run(playwright, ['test', '--reporter=list,json'], {
    ...env,
    PLAYWRIGHT_JSON_OUTPUT_FILE: file,
  })
  return counted(ok, file, ({ stats, errors, suites }) => {
    for (const suite of suites) tellSuite(suite)
    return { passed: stats.expected + stats.flaky, failed: stats.unexpected + errors.length }
  })
}

/** @param {any} suite of a report of playwright */
function tellSuite(suite) {
  for (const { title, tests } of suite.specs ?? [])
    for (const { status, results } of tests)
      if (status === 'unexpected' || status === 'flaky')
        told.push(
          `${status === 'flaky' ? 'passed when run again' : 'failed'}: ${suite.file}: ${title}${why(results[0]?.error?.message)}`,
        )
  for (const inner of suite.suites ?? []) tellSuite(inner)
}

/** Prints the plain closing line and ends the process with its verdict.
 * @param {Counts} total @returns {never} */
export function close({ passed, failed }) {
  if (told.length > 0) console.log(`\n${told.join('\n')}`)
  console.log(`\n${passed} passed, ${failed} failed`)
  process.exit(failed === 0 && passed > 0 ? 0 : 1)
}
