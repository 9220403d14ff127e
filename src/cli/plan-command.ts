import { bad, good, type Result } from '../core/result.ts'
import { planText } from './plan-text.ts'
import { type Outside, plannedFrom, refused } from './planned.ts'
import type { Said } from './said.ts'
import { toTubePlan } from './tube-plan.ts'

const usage = 'usage: npm run -s plan -- FILE [--shop FILE] [--json]'

interface Asked {
  readonly file: string
  readonly shop?: string
  readonly json: boolean
}

function asked(args: readonly string[]): Result<Asked> {
  let file: string | undefined
  let shop: string | undefined
  let json = false
  for (let at = 0; at < args.length; at += 1) {
    const arg = args[at]!
    if (arg === '--json') json = true
    else if (arg === '--shop') {
      at += 1
      shop = args[at]
      if (shop === undefined) return bad('usage', `--shop needs a file; ${usage}`)
    } else if (arg.startsWith('--')) return bad('usage', `${arg} is no option; ${usage}`)
    else if (file !== undefined) return bad('usage', `two files were given, ${file} and ${arg}; ${usage}`)
    else file = arg
  }
  if (file === undefined) return bad('usage', `no file was given; ${usage}`)
  return good(shop === undefined ? { file, json } : { file, shop, json })
}

/** The plan command from its arguments to what it prints. */
export async function planCommand(args: readonly string[], outside: Outside): Promise<Said> {
  const wanted = asked(args)
  if (!wanted.ok) return refused(wanted.problems)
  const made = await plannedFrom(wanted.value.file, wanted.value.shop, outside)
  if (!made.ok) return refused(made.problems)
  const { plan, shop, offers } = made.value
  const out = wanted.value.json
    ? `${JSON.stringify(toTubePlan(plan), null, 2)}\n`
    : planText(plan, shop, offers)
  return { code: 0, out, err: '' }
}
