import { describe, expect, test } from 'vitest'
import { type PrintOutside, paperCommand } from '../../src/cli/paper-command.ts'
import { printPdfs } from '../../src/cli/print-pdf.ts'
import { changedDemo, demoText, outsideOf } from './shelf.ts'

/** A browser that hands back the HTML as it was given it, and a disk in memory. */
function printing(text: string, change: Partial<PrintOutside> = {}) {
  const written = new Map<string, string>()
  const outside: PrintOutside = {
    ...outsideOf({ 'job.json': text }),
    browser: async () => 'a browser',
    print: async (_browser, texts) => texts.map((html) => new TextEncoder().encode(html)),
    write: (folder, name, bytes) => {
      written.set(`${folder}/${name}`, new TextDecoder().decode(bytes))
      return `${folder}/${name}`
    },
    ...change,
  }
  return { written, say: (...args: string[]) => paperCommand(args, outside) }
}

const pagesIn = (html = '', size: string) => html.split(`class="paper-page" data-page="${size}"`).length - 1

describe('the paper command', () => {
  test('writes each sheet of the job as a file of its own, and says how many pages it has', async () => {
    const { written, say } = printing(demoText('hexagon-top'))
    const said = await say('job.json', '--out', 'wall')
    expect(said).toMatchObject({ code: 0, err: '' })
    const lines = [...said.out.matchAll(/^(\S+): (\d+) pages?$/gm)].map(([, file, pages]) => [
      file,
      Number(pages),
    ])
    expect(lines.map(([file]) => file)).toEqual([...written.keys()])
    expect([...written.keys()]).toEqual(
      expect.arrayContaining(['wall/wall.pdf', 'wall/parts.pdf', 'wall/stock.pdf', 'wall/weld.pdf']),
    )
    for (const [file, pages] of lines) expect(pagesIn(written.get(`${file}`), 'Letter')).toBe(pages)
  })

  test('one sheet on A4 where Letter is the paper of the shop', async () => {
    const { written, say } = printing(demoText('hexagon-top'))
    await say('job.json', '--out', 'wall', '--page', 'a4', '--sheet', 'weld')
    expect([...written.keys()]).toEqual(['wall/weld.pdf'])
    expect(pagesIn(written.get('wall/weld.pdf'), 'A4')).toBeGreaterThan(0)
    expect(pagesIn(written.get('wall/weld.pdf'), 'Letter')).toBe(0)
  })

  test('the text of a page stands alone: its style is in it, and it fetches nothing', async () => {
    const { written, say } = printing(demoText('hexagon-top'))
    await say('job.json', '--out', 'wall', '--sheet', 'wall')
    const html = written.get('wall/wall.pdf') ?? ''
    expect(html).toContain('size: 215.9mm 279.4mm')
    expect(html).not.toMatch(/<script|<link|src=|url\(/)
  })

  const oneLine = /^[^\n]+\n$/
  test.each([
    [['job.json'], /no folder was given with --out/],
    [['--out', 'wall'], /no file was given/],
    [['job.json', 'other.json', '--out', 'wall'], /two files were given, job.json and other.json/],
    [['job.json', '--out'], /--out needs a word after it/],
    [['job.json', '--out', 'wall', '--page', 'A3'], /A3 is no page size here/],
    [['job.json', '--out', 'wall', '--sheet', 'poster'], /poster is no sheet; .*wall, list, parts/],
    [['job.json', '--out', 'wall', '--scale', '90'], /--scale is no option/],
    [['gone.json', '--out', 'wall'], /gone.json cannot be read \(ENOENT\)/],
  ])('%j is refused in one line, and nothing is written', async (args, why) => {
    const { written, say } = printing(demoText('hexagon-top'))
    const said = await say(...args)
    expect(said).toMatchObject({ code: 1, out: '' })
    expect(said.err).toMatch(oneLine)
    expect(said.err).toMatch(why)
    expect(written.size).toBe(0)
  })

  test('no browser is said in one line, with what to do', async () => {
    const { written, say } = printing(demoText('hexagon-top'), { browser: async () => undefined })
    const said = await say('job.json', '--out', 'wall')
    expect(said).toMatchObject({ code: 1, out: '' })
    expect(said.err).toMatch(oneLine)
    expect(said.err).toMatch(/No browser was found to print with\. Install Chromium/)
    expect(written.size).toBe(0)
  })

  test('a sheet that this job has nothing for is refused, not written empty', async () => {
    const { say } = printing(demoText('hexagon-top'))
    const said = await say('job.json', '--out', 'wall', '--sheet', 'saddle')
    expect(said).toMatchObject({ code: 1, out: '' })
    expect(said.err).toMatch(/There is no sheet “saddle” of this job/)
  })

  test('what no saw of the shop finishes stands on the cut sheet, with the reason', async () => {
    const text = changedDemo('hexagon-top', ({ shop }) => {
      const saws = (shop?.saws ?? []) as { limits: object }[]
      Object.assign(saws[0]!.limits, { towardStop: 20, awayFromStop: 20 })
    })
    const { written, say } = printing(text)
    expect(await say('job.json', '--out', 'wall', '--sheet', 'wall')).toMatchObject({ code: 0 })
    const sheet = written.get('wall/wall.pdf')!
    expect(sheet).toMatch(/By hand: no saw here finishes these.*A: a miter of 30° from square/s)
    // How it is marked out, and a box for each of the six.
    expect(sheet).toMatch(/the edges numbered round the tube, from a square end/)
  })
})

test('a browser that cannot be started, or ends by itself, is said in one line', async () => {
  await expect(printPdfs('/no/such/browser', [], ['<p>'])).rejects.toThrow(
    /\/no\/such\/browser did not start/,
  )
  await expect(printPdfs(process.execPath, ['--version'], ['<p>'])).rejects.toThrow(/ended by itself/)
})
