// Finds the browser that the tests drive. By hand: `node scripts/find-browser.mjs [--install]` prints its path.
// With --install it also brings what is missing: a browser, and pdftotext and pdftocairo for the paper tests.
import { spawnSync } from 'node:child_process'
import { accessSync, constants, existsSync, readFileSync } from 'node:fs'
import { delimiter, join } from 'node:path'
import { pathToFileURL } from 'node:url'

const isRoot = process.getuid?.() === 0

/** Chromium's own errands off (nothing here may use the network), and no sandbox where root cannot have one. */
export const browserArgs = [
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  ...(isRoot ? ['--no-sandbox'] : []),
]

/** @param {string} file */
function runnable(file) {
  try {
    accessSync(file, constants.X_OK)
    return true
  } catch {
    return false
  }
}

/** @param {string} name @returns {string | undefined} full path of a program on the PATH */
function onPath(name) {
  return (process.env.PATH ?? '')
    .split(delimiter)
    .filter(Boolean)
    .map((folder) => join(folder, name))
    .find(runnable)
}

async function playwrightsOwn() {
  try {
    const { chromium } = await import('@playwright/test')
    const file = chromium.executablePath()
    return existsSync(file) ? file : undefined
  } catch {
    return undefined
  }
}

function systems() {
  const names = [
    'chromium-headless-shell',
    'chrome-headless-shell',
    'chromium',
    'chromium-browser',
    'google-chrome',
    'google-chrome-stable',
    'microsoft-edge',
  ]
  const places = [
    '/usr/lib/chromium/chromium-headless-shell',
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
    join(process.env.PROGRAMFILES ?? 'C:\\Program Files', 'Google/Chrome/Application/chrome.exe'),
    join(
      process.env['PROGRAMFILES(X86)'] ?? 'C:\\Program Files (x86)',
      'Microsoft/Edge/Application/msedge.exe',
    ),
  ]
  return names.map(onPath).find(Boolean) ?? places.find(runnable)
}

/**
 * Path of a Chromium-like browser, or nothing. In order: $CHROMIUM_PATH, the test runner's own build, the system's.
 * @returns {Promise<string | undefined>}
 */
export async function findBrowser() {
  const asked = process.env.CHROMIUM_PATH
  if (asked) {
    if (!runnable(asked)) throw new Error(`CHROMIUM_PATH names ${asked}, which cannot be run.`)
    return asked
  }
  return (await playwrightsOwn()) ?? systems()
}

/** @param {string} program @param {string[]} args @param {NodeJS.ProcessEnv} [env] */
function run(program, args, env) {
  // To standard error: standard output is for the path.
  console.error(`> ${program} ${args.join(' ')}`)
  return spawnSync(program, args, { stdio: ['ignore', 2, 2], env: { ...process.env, ...env } }).status === 0
}

/** @param {string[]} packages @returns {boolean} whether Debian's installer brought them */
function aptInstall(packages) {
  let debian = false
  try {
    debian = /^ID(_LIKE)?=.*\b(debian|ubuntu)\b/m.test(readFileSync('/etc/os-release', 'utf8'))
  } catch {
    return false
  }
  const asRoot = isRoot ? [] : ['sudo', '-n', 'DEBIAN_FRONTEND=noninteractive']
  if (!debian || (!isRoot && spawnSync('sudo', ['-n', 'true']).status !== 0)) return false
  /** @param {string[]} args */
  const apt = (args) => {
    // Another program may be installing at this moment: wait for it rather than fail.
    const line = [...asRoot, 'apt-get', '-q', '-o', 'DPkg::Lock::Timeout=300', ...args]
    return run(line[0] ?? '', line.slice(1), { DEBIAN_FRONTEND: 'noninteractive' })
  }
  const install = ['install', '-y', '--no-install-recommends', ...packages]
  // A machine may hold a fresh package list already; a stale or missing one shows as a failed install.
  return apt(install) || (apt(['update']) && apt(install))
}

const paperTools = ['pdftotext', 'pdftocairo', 'pdfinfo']

/**
 * Brings the browser and the tools for reading PDFs if they are missing. Says on standard error what it does.
 * @returns {Promise<string | undefined>} path of the browser, or nothing if none could be had
 */
export async function installMissing() {
  let browser = await findBrowser()
  const needsTools = paperTools.some((name) => !onPath(name))
  const wanted = [...(browser ? [] : ['chromium-headless-shell']), ...(needsTools ? ['poppler-utils'] : [])]
  if (wanted.length > 0 && !aptInstall(wanted)) for (const name of wanted) aptInstall([name])
  browser ??= await findBrowser()
  if (!browser && run('npx', ['playwright', 'install', 'chromium'])) browser = await findBrowser()
  if (paperTools.some((name) => !onPath(name)))
    console.error('pdftotext is missing: install poppler-utils, or the tests of the paper will fail.')
  return browser
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const browser = await (process.argv.includes('--install') ? installMissing() : findBrowser())
  if (browser) console.log(browser)
  else {
    console.error('No Chromium found. Install one, or set CHROMIUM_PATH to it.')
    process.exit(1)
  }
}
