import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import process from 'node:process'
import { planCommand } from './plan-command.ts'

// `npm run -s plan -- FILE [--shop FILE] [--json]`: only the wiring; plan-command.ts says what it does.

const said = await planCommand(process.argv.slice(2), {
  read: (file) => readFileSync(file, 'utf8'),
  hash: async (text) => createHash('sha256').update(text).digest('hex'),
})
process.stdout.write(said.out)
process.stderr.write(said.err)
process.exitCode = said.code
