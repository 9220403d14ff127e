import { bad, good, type Result } from '../core/result.ts'
import { benchCuts } from '../core/saw/bench.ts'
import { paperDocument } from '../paper/document.tsx'
import { possibleSheets, sheets } from '../paper/sheets.ts'
import { type PageSize, pageSizes } from '../paper/size.ts'
import { type Outside, type Planned, plannedFrom, refused } from './planned.ts'
import type { Said } from './said.ts'

const usage =
  'usage: npm run -s paper -- FILE --out DIR [--shop FILE] [--page Letter|A4] [--sheet NAME]...; ' +
  `names of sheets: ${sheets.map(({ id }) => id).join(', ')}`

/** What the command needs beyond the plan. */
export interface PrintOutside extends Outside {
  /** Path of a browser; undefined where there is none. */
  readonly browser: () => Promise<string | undefined>
  /** HTML texts to PDFs, in order. */
  readonly print: (browser: string, texts: readonly string[]) => Promise<readonly Uint8Array[]>
  /** Writes a file into a folder, which is made where it is missing; gives its path. */
  readonly write: (folder: string, name: string, bytes: Uint8Array) => string
}

interface Asked {
  readonly file: string
  readonly out: string
  readonly shop?: string
  readonly page?: PageSize
  readonly sheets: readonly string[]
}

const pageNamed = (name: string): PageSize | undefined =>
  Object.values(pageSizes).find((page) => page.name.toLowerCase() === name.toLowerCase())

function asked(args: readonly string[]): Result<Asked> {
  const given = new Map<string, string[]>()
  const files: string[] = []
  for (let at = 0; at < args.length; at += 1) {
    const arg = args[at]!
    if (!arg.startsWith('--')) files.push(arg)
    else if (!['--out', '--shop', '--page', '--sheet'].includes(arg))
      return bad('usage', `${arg} is no option; ${usage}`)
    else {
      at += 1
      const value = args[at]
      if (value === undefined) return bad('usage', `${arg} needs a word after it; ${usage}`)
      given.set(arg, [...(given.get(arg) ?? []), value])
    }
  }
  const [file, more] = files
  if (file === undefined) return bad('usage', `no file was given; ${usage}`)
  if (more !== undefined) return bad('usage', `two files were given, ${file} and ${more}; ${usage}`)
  const out = given.get('--out')?.at(-1)
  if (out === undefined) return bad('usage', `no folder was given with --out; ${usage}`)
  const pageName = given.get('--page')?.at(-1)
  const page = pageName === undefined ? undefined : pageNamed(pageName)
  if (pageName !== undefined && !page) return bad('usage', `${pageName} is no page size here; ${usage}`)
  const wanted = given.get('--sheet') ?? []
  const unknown = wanted.find((id) => !sheets.some((sheet) => sheet.id === id))
  if (unknown !== undefined) return bad('usage', `${unknown} is no sheet; ${usage}`)
  const shop = given.get('--shop')?.at(-1)
  return good({
    file,
    out,
    sheets: wanted,
    ...(shop === undefined ? {} : { shop }),
    ...(page ? { page } : {}),
  })
}

interface Printed {
  readonly name: string
  readonly pages: number
  readonly html: string
}

function documents({ plan, shop, ...soFar }: Planned, { sheets: ids, page }: Asked): Result<Printed[]> {
  const size = page ?? pageSizes[shop.paper]
  const cuts = plan.run && plan.nest ? benchCuts(plan.run, plan.nest, soFar.progress.made, plan.job) : []
  const possible = possibleSheets(plan)
  const missing = ids.find((id) => !possible.some((sheet) => sheet.id === id))
  if (missing !== undefined) {
    const why = plan.hindered?.map(({ text }) => text).join(' ') ?? 'The job has nothing to put on it.'
    return bad('no-sheet', `There is no sheet “${missing}” of this job. ${why}`)
  }
  const wanted = ids.length === 0 ? possible : possible.filter(({ id }) => ids.includes(id))
  return good(
    wanted.map((sheet) => {
      const pages = sheet.pages(plan, cuts, shop, size, soFar)
      return {
        name: `${sheet.id}.pdf`,
        pages: pages.length,
        html: paperDocument(`${plan.name}: ${sheet.title}`, pages),
      }
    }),
  )
}

/** The paper command: the sheets that the Paper station prints, one PDF each. */
export async function paperCommand(args: readonly string[], outside: PrintOutside): Promise<Said> {
  const wanted = asked(args)
  if (!wanted.ok) return refused(wanted.problems)
  const made = await plannedFrom(wanted.value.file, wanted.value.shop, outside)
  if (!made.ok) return refused(made.problems)
  const texts = documents(made.value, wanted.value)
  if (!texts.ok) return refused(texts.problems)
  try {
    const browser = await outside.browser()
    if (browser === undefined)
      return refused([
        {
          text:
            'No browser was found to print with. Install Chromium, Chrome or Edge, or set CHROMIUM_PATH to one; ' +
            '`node scripts/find-browser.mjs --install` brings one.',
        },
      ])
    const pdfs = await outside.print(
      browser,
      texts.value.map(({ html }) => html),
    )
    const lines = texts.value.map(({ name, pages }, at) => {
      const file = outside.write(wanted.value.out, name, pdfs[at]!)
      return `${file}: ${pages} ${pages === 1 ? 'page' : 'pages'}\n`
    })
    return { code: 0, out: lines.join(''), err: '' }
  } catch (error) {
    return refused([{ text: error instanceof Error ? error.message : String(error) }])
  }
}
