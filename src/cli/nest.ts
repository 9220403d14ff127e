import { readFileSync } from 'node:fs'
import { performance } from 'node:perf_hooks'
import process from 'node:process'
import { openWholeSolver } from '../nest/whole-solver.ts'
import { nestCommand } from './nest-command.ts'

// `npm run -s nest -- FILE [--seconds N] [--json]`: only the wiring; nest-command.ts says what it does.

const said = await nestCommand(process.argv.slice(2), {
  read: (file) => readFileSync(file, 'utf8'),
  clock: () => performance.now() / 1000,
  load: () => openWholeSolver(),
})
process.stdout.write(said.out)
process.stderr.write(said.err)
process.exitCode = said.code
