import { createHash } from 'node:crypto'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import process from 'node:process'
import { browserArgs, findBrowser } from '../../scripts/find-browser.mjs'
import { paperCommand } from './paper-command.ts'
import { printPdfs } from './print-pdf.ts'

// `npm run -s paper -- FILE --out DIR`: only the wiring; paper-command.ts says what it does.

const said = await paperCommand(process.argv.slice(2), {
  read: (file) => readFileSync(file, 'utf8'),
  hash: async (text) => createHash('sha256').update(text).digest('hex'),
  browser: findBrowser,
  print: (browser, texts) => printPdfs(browser, browserArgs, texts),
  write: (folder, name, bytes) => {
    mkdirSync(folder, { recursive: true })
    const file = join(folder, name)
    writeFileSync(file, bytes)
    return file
  },
})
process.stdout.write(said.out)
process.stderr.write(said.err)
process.exitCode = said.code
