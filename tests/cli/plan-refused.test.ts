import { describe, expect, test } from 'vitest'
import { planCommand } from '../../src/cli/plan-command.ts'
import { changedDemo, type DemoName, demoText, type LooseFile, outsideOf, planOf } from './shelf.ts'

// Each thing that people get wrong: one line that says what was given and what is possible, nothing on standard output.

interface Slip {
  readonly slip: string
  readonly demo: DemoName
  readonly params: Readonly<Record<string, unknown>>
  /** What the line must say: the field, what was given, what is possible. */
  readonly says: readonly (string | RegExp)[]
}

const slips: readonly Slip[] = [
  {
    // Hexagon, tube w: nothing is left inside when the across-flats size is 2w = 4 in.
    slip: 'a size too small for the tube',
    demo: 'hexagon-top',
    params: { size: '4' },
    says: ['job.build.params.size', '4 in across flats', 'must be more than 4 in'],
  },
  {
    slip: 'two sides',
    demo: 'hexagon-top',
    params: { sides: 2 },
    says: ['job.build.params.sides', 'given as 2', '3 or more'],
  },
  {
    slip: 'two and a half sides',
    demo: 'hexagon-top',
    params: { sides: 2.5 },
    says: ['job.build.params.sides', '2.5', 'whole number'],
  },
  {
    slip: 'two and a half sides, typed',
    demo: 'hexagon-top',
    params: { sides: '2.5' },
    says: ['job.build.params.sides', '2.5', 'whole number'],
  },
  {
    slip: 'seventeen sides',
    demo: 'hexagon-top',
    params: { sides: 17 },
    says: ['job.build.params.sides', 'given as 17', '16 or less'],
  },
  {
    // 24 in across flats: inradius 12 in.
    slip: 'an inset of the inradius of the plate',
    demo: 'hexagon-top',
    params: { topEdgeBy: '12' },
    says: ['job.build.params.topEdgeBy', 'inset of 12 in', 'less than 12 in'],
  },
  {
    slip: 'a height too low for what stands on it',
    demo: 'ten-sided-pedestal',
    params: { height: 150 },
    says: ['job.build.params.height', '150 mm', /must be (more than|at least) \d+ mm/],
  },
  {
    // 7315.2 mm of 24 ft stick, less 1/2 in clean-up and what the vise holds, is the longest.
    slip: 'a part longer than any stick',
    demo: 'hexagon-top',
    params: { size: "45'" },
    says: ['Part A needs', /longest that can be cut is 284 \d+\/\d+ in|longest that can be cut is 28\d/],
  },
  {
    slip: 'a wall of half the width',
    demo: 'hexagon-top',
    params: { section: { kind: 'square-tube', width: '2', wall: '1' } },
    says: ['job.build.params.section.wall', 'wall of 1 in', 'less than half of the smaller side, 1 in'],
  },
  {
    slip: 'nothing',
    demo: 'hexagon-top',
    params: { size: '' },
    says: ['job.build.params.size', /empty|nothing|length/i],
  },
  { slip: '7/0', demo: 'hexagon-top', params: { size: '7/0' }, says: ['job.build.params.size', '7/0', '0'] },
  { slip: '1 1/2 3', demo: 'hexagon-top', params: { size: '1 1/2 3' }, says: ['job.build.params.size', '3'] },
  {
    slip: 'words',
    demo: 'hexagon-top',
    params: { size: 'about two feet' },
    says: ['job.build.params.size', 'about'],
  },
  {
    slip: 'a parameter that there is none of',
    demo: 'hexagon-top',
    params: { colour: 'red' },
    says: ['colour', 'it has sides, sizeKind'],
  },
]

async function line(text: string, ...args: readonly string[]): Promise<string> {
  const said = await planOf(text, ...args)
  expect(said.out).toBe('')
  expect(said.code).toBe(1)
  expect(said.err).toMatch(/^[^\n]+\n$/)
  return said.err
}

describe('plan refuses in one line', () => {
  test.each(slips)('$slip', async ({ demo, params, says }) => {
    const text = changedDemo(demo, (file) => Object.assign(file.job.build.params, params))
    for (const args of [[], ['--json']]) {
      const err = await line(text, ...args)
      for (const words of says) expect(err).toMatch(words instanceof RegExp ? words : literal(words))
    }
  })

  test('the size just too small, and takes the next sixteenth', async () => {
    const at = (size: string) =>
      changedDemo('hexagon-top', (file) => Object.assign(file.job.build.params, { size, topEdge: 'flush' }))
    expect((await planOf(at('4'))).code).toBe(1)
    expect((await planOf(at('4 1/16'))).err).toBe('')
  })

  test.each([
    [
      'an unknown build',
      (file: LooseFile) => {
        file.job.build.kind = 'boat'
      },
      ['job.build.kind', 'boat', 'known are polygon-frame, '],
    ],
    [
      'a quantity of 2.5',
      (file: LooseFile) => {
        file.job.quantity = 2.5
      },
      ['job.json', 'job.quantity is 2.5', '1 to 1000'],
    ],
    [
      'version 2',
      (file: LooseFile) => {
        file.version = 2
      },
      ['job.json', 'version 2', 'reads version 1'],
    ],
    [
      'another format',
      (file: LooseFile) => {
        file.format = 'tube-plan'
      },
      ['"tube-plan"', '"tube-job"'],
    ],
    [
      'half a shop',
      (file: LooseFile) => {
        delete file.shop?.saws
      },
      ['shop.saws is missing', 'a list of saws'],
    ],
    [
      'a nest that is not there',
      (file: LooseFile) => {
        file.facts = [accepted('nest-x')]
      },
      ['nest-x', 'does not hold'],
    ],
  ] as const)('%s', async (_, change, says) => {
    const err = await line(changedDemo('hexagon-top', change))
    for (const words of says) expect(err).toContain(words)
  })

  test('NaN in a file, a text that is cut off, and an empty one', async () => {
    const text = demoText('five-sided-frame')
    expect(await line(text.replace('"size": 500', '"size": NaN'))).toContain('NaN in line')
    expect(await line(text.slice(0, 400))).toContain('not JSON')
    expect(await line('')).toContain('it is empty')
  })

  test('a file that is not there, and arguments that make no sense', async () => {
    const outside = outsideOf({ 'job.json': demoText('hexagon-top'), 'bad.json': '{"id": 3}' })
    const cases: readonly (readonly [readonly string[], string])[] = [
      [['other.json'], 'other.json cannot be read (ENOENT)'],
      [[], 'no file was given; usage:'],
      [['job.json', 'more.json'], 'two files were given'],
      [['job.json', '--jsno'], '--jsno is no option'],
      [['job.json', '--shop'], '--shop needs a file'],
      [['job.json', '--shop', 'none.json'], 'none.json cannot be read'],
      [['job.json', '--shop', 'bad.json'], 'bad.json: id is 3; it must be text'],
    ]
    for (const [args, words] of cases) {
      const said = await planCommand(args, outside)
      expect(said).toMatchObject({ code: 1, out: '' })
      expect(said.err).toMatch(/^[^\n]+\n$/)
      expect(said.err).toContain(words)
    }
  })
})

const literal = (words: string): RegExp => new RegExp(words.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))

const accepted = (nest: string) => ({
  id: 'tablet:1',
  v: 1,
  kind: 'accepted',
  device: 'tablet',
  seq: 1,
  lamport: 1,
  at: '2024-05-04T10:00:00.000Z',
  job: 'sample-hexagon-top',
  body: { nest },
})
