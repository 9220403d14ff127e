import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Readable, Writable } from 'node:stream'

// A browser without a window, spoken to over two pipes: it opens pages that are handed to it and prints them.

/** A browser that did not do what it was asked, in one line. */
export class BrowserFailed extends Error {}

/** Longest that one step may take, ms: a browser that hangs is ended. */
const patience = 60_000

interface Answer {
  readonly id?: number
  readonly method?: string
  readonly sessionId?: string
  readonly error?: { readonly message: string }
  readonly result?: Record<string, unknown>
}

/**
 * Prints each HTML text to a PDF at the page sizes that its style asks for, unscaled, in order.
 * Rejects with BrowserFailed; the browser is ended and what it kept is removed in any case.
 */
export async function printPdfs(
  browser: string,
  args: readonly string[],
  texts: readonly string[],
): Promise<Uint8Array[]> {
  const kept = mkdtempSync(join(tmpdir(), 'longpoint-print-'))
  const running = spawn(
    browser,
    ['--headless', '--remote-debugging-pipe', `--user-data-dir=${kept}`, ...args, 'about:blank'],
    { stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe'] },
  )
  const ended = new Promise<string>((done) => {
    running.once('error', ({ message }) => done(`${browser} did not start: ${message}`))
    running.once('exit', (code) => done(`${browser} ended by itself (${code ?? 'killed'}).`))
  })
  const [to, from] = [running.stdio[3] as Writable, running.stdio[4] as Readable]
  try {
    const ask = talk(to, from, ended)
    const printed: Uint8Array[] = []
    for (const text of texts) printed.push(await printOne(ask, text))
    return printed
  } finally {
    // A browser whose pipes are closed ends, also where the program named above only started the real one.
    to.destroy()
    from.destroy()
    await Promise.race([ended, new Promise((done) => setTimeout(done, 3000).unref())])
    running.kill('SIGKILL')
    try {
      rmSync(kept, { recursive: true, force: true, maxRetries: 5 })
    } catch {
      // What it kept lies in the folder for passing things: the system clears it.
    }
  }
}

type Ask = (
  method: string,
  params: Record<string, unknown>,
  sessionId?: string,
) => Promise<Record<string, unknown>>

async function printOne(ask: Ask, html: string): Promise<Uint8Array> {
  const { targetId } = await ask('Target.createTarget', { url: 'about:blank' })
  const { sessionId } = await ask('Target.attachToTarget', { targetId, flatten: true })
  const at = sessionId as string
  const { frameTree } = await ask('Page.getFrameTree', {}, at)
  const frameId = (frameTree as { frame: { id: string } }).frame.id
  await ask('Page.setDocumentContent', { frameId, html }, at)
  const { data } = await ask('Page.printToPDF', { preferCSSPageSize: true, printBackground: true }, at)
  await ask('Target.closeTarget', { targetId })
  return Buffer.from(data as string, 'base64')
}

/** Messages are JSON, each ended by a zero. */
function talk(to: Writable, from: Readable, ended: Promise<string>): Ask {
  const waiting = new Map<number, (answer: Answer) => void>()
  let before = ''
  from.setEncoding('utf8')
  from.on('data', (chunk: string) => {
    const messages = (before + chunk).split('\0')
    before = messages.pop() ?? ''
    for (const message of messages) {
      const answer = JSON.parse(message) as Answer
      if (answer.id === undefined) continue
      waiting.get(answer.id)?.(answer)
      waiting.delete(answer.id)
    }
  })
  // A pipe that breaks is a browser that is gone, which is said above.
  from.on('error', () => undefined)
  to.on('error', () => undefined)
  const gone = ended.then((why): never => {
    throw new BrowserFailed(why)
  })
  gone.catch(() => undefined)
  let last = 0
  return async (method, params, sessionId) => {
    last += 1
    const id = last
    let clock: ReturnType<typeof setTimeout> | undefined
    const answered = new Promise<Answer>((done) => waiting.set(id, done))
    const late = new Promise<never>((_, fail) => {
      clock = setTimeout(() => fail(new BrowserFailed(`The browser did not answer ${method}.`)), patience)
    })
    to.write(`${JSON.stringify({ id, method, params, ...(sessionId ? { sessionId } : {}) })}\0`)
    try {
      const { error, result } = await Promise.race([answered, late, gone])
      if (error) throw new BrowserFailed(`The browser refused ${method}: ${error.message}`)
      return result ?? {}
    } finally {
      clearTimeout(clock)
    }
  }
}
