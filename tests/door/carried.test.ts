import { deflateRawSync } from 'node:zlib'
import fc from 'fast-check'
import jsQR from 'jsqr'
import { describe, expect, test } from 'vitest'
import {
  type Codes,
  isWhole,
  longestLink,
  mostCodes,
  readCodes,
  readLink,
  withCode,
  writeCodes,
  writeLink,
} from '../../src/door/carried.ts'
import { type JobFile, readJobFile, writeJobFile } from '../../src/door/job-file.ts'
import { fromBase45, fromBase64url, toBase45, toBase64url } from '../../src/door/letters.ts'
import { crc32, mostUnpacked, pack, unpack } from '../../src/door/packed.ts'
import { codePath } from '../../src/ui/jobs/code-row.tsx'
import { mulberry32 } from '../prove/seed.ts'
import { sampleFile } from './sample.ts'

const bytesOf = (text: string) => new TextEncoder().encode(text)
const wordsOf = (result: { ok: boolean; problems?: readonly { text: string }[] }) =>
  (result.problems ?? []).map(({ text }) => text).join(' ')

function sample(): JobFile {
  const read = readJobFile(JSON.stringify(sampleFile()))
  if (!read.ok) throw new Error(read.problems[0]?.text)
  return read.value
}

async function made(file: JobFile): Promise<readonly string[]> {
  const codes = await writeCodes(file)
  if (!codes.ok) throw new Error(wordsOf(codes))
  return codes.value
}

function readAll(texts: readonly string[]): Codes {
  let codes: Codes | null = null
  for (const text of texts) {
    const next = withCode(codes, text)
    if (!next.ok) throw new Error(wordsOf(next))
    codes = next.value
  }
  return codes!
}

describe('letters', () => {
  // RFC 9285, sections 4.3 and 4.4.
  test.each([
    ['AB', 'BB8'],
    ['Hello!!', '%69 VD92EX0'],
    ['base-45', 'UJCLQE7W581'],
    ['ietf!', 'QED8WEX0'],
  ])('%s is %s in base45, as RFC 9285 has it', (plain, letters) => {
    expect(toBase45(bytesOf(plain))).toBe(letters)
    expect(fromBase45(letters)).toEqual(bytesOf(plain))
  })
  test('GGW, which RFC 9285 (section 4.2) calls over 65535, is refused; so are odd lengths and other letters', () => {
    for (const bad of ['GGW', 'A', 'BB8A', 'bb8', ':::', '::']) expect(fromBase45(bad), bad).toBeUndefined()
  })
  test('base64url is that of Node, for 0 to 200 random bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        expect(toBase64url(bytes)).toBe(Buffer.from(bytes).toString('base64url'))
        expect(fromBase64url(toBase64url(bytes))).toEqual(new Uint8Array(bytes))
        expect(fromBase45(toBase45(bytes))).toEqual(new Uint8Array(bytes))
      }),
    )
  })
  test('the check sum of 123456789 is CBF43926, the check value that catalogs of CRCs give for CRC-32', () => {
    expect(crc32(bytesOf('123456789'))).toBe('CBF43926')
  })
})

describe('a packed text', () => {
  test('is raw deflate: what Node packs is read, umlauts and all', async () => {
    const bytes = new Uint8Array(deflateRawSync('Stück 4, 7½ °'))
    expect(await unpack(bytes)).toEqual({ ok: true, value: 'Stück 4, 7½ °' })
    expect(await unpack(new Uint8Array(await pack('a½b')))).toEqual({ ok: true, value: 'a½b' })
  })
  test(`of ${mostUnpacked} bytes is read, of one more refused, though both are about 8 kB on the way`, async () => {
    const bomb = (size: number) => new Uint8Array(deflateRawSync(Buffer.alloc(size, 'a'), { level: 9 }))
    expect(bomb(mostUnpacked).length).toBeLessThan(9000)
    expect((await unpack(bomb(mostUnpacked))).ok).toBe(true)
    expect(wordsOf(await unpack(bomb(mostUnpacked + 1)))).toContain(`more than ${mostUnpacked} bytes`)
  })
  test('that was cut off, or is none, is refused in words', async () => {
    const whole = new Uint8Array(deflateRawSync(JSON.stringify(sampleFile())))
    for (const bytes of [whole.slice(0, -5), whole.slice(3), new Uint8Array([1, 2, 3])])
      expect(wordsOf(await unpack(bytes))).toContain('damaged or was cut off')
  })
})

describe('a link', () => {
  test('carries a whole job file, to the last field, and its letters need no escape in an address', async () => {
    const link = await writeLink(sample())
    if (!link.ok) throw new Error(wordsOf(link))
    expect(link.value).toMatch(/^1\.[\w-]+$/)
    expect(encodeURIComponent(link.value)).toBe(link.value)
    const text = await readLink(`  ${link.value}\n`)
    if (!text.ok) throw new Error(wordsOf(text))
    expect(readJobFile(text.value)).toEqual({ ok: true, value: sample() })
  })
  test.each([
    ['', 'carries no job'],
    ['hello', 'carries no job'],
    ['2.AAAA', 'version 2'],
    ['1.AA*A', 'damaged'],
    ['1.A', 'damaged'],
    ['1.AAAA', 'damaged'],
    [`1.${'A'.repeat(2 * longestLink + 1)}`, `at most ${2 * longestLink}`],
  ])('%.20s is refused: %s', async (link, why) => {
    expect(wordsOf(await readLink(link))).toContain(why)
  })
  test('that would be too long says so, and what to do instead', async () => {
    // Letters that follow no rule do not pack.
    const next = mulberry32(9)
    const noise = (size: number) =>
      Array.from({ length: size }, () => String.fromCharCode(40 + 80 * next())).join('')
    const file = sample()
    const long = { ...file, facts: [1, 2, 3, 4].map(() => ({ ...file.facts![0]!, note: noise(9000) })) }
    const link = await writeLink(long as JobFile)
    expect(wordsOf(link)).toMatch(/link of \d+ characters; most programs carry at most 30000.*Save a file/)
  })
})

describe('codes', () => {
  test('of a whole job file are read in any order, some of them twice', async () => {
    const texts = await made(sample())
    expect(texts.length).toBeGreaterThan(1)
    const codes = readAll([...texts.toReversed(), texts[0]!])
    expect(isWhole(codes)).toBe(true)
    const text = await readCodes(codes)
    expect(text.ok && readJobFile(text.value)).toEqual({ ok: true, value: sample() })
  })
  test('of a job alone are one code or two', async () => {
    const { job } = sample()
    expect((await made({ job })).length).toBeLessThanOrEqual(2)
  })
  test('of which one is missing say so; one of another job begins anew', async () => {
    const texts = await made(sample())
    const codes = readAll(texts.slice(1))
    expect(wordsOf(await readCodes(codes))).toContain(`${texts.length - 1} of ${texts.length} codes`)
    const other = await made({ job: { ...sample().job, name: 'Another' } })
    expect(readAll([...texts.slice(1), other[0]!]).read.size).toBe(1)
  })
  test('of which one was read wrong are refused whole', async () => {
    const texts = [...(await made(sample()))]
    texts[1] = texts[1]!.replace(
      /(TUBE1:\w+:\d+:\d+:)(.)/,
      (_, start, letter) => start + (letter === '0' ? '1' : '0'),
    )
    expect(wordsOf(await readCodes(readAll(texts)))).toContain('read wrong')
  })
  test.each([
    ['https://example.org', 'no job of Longpoint'],
    ['TUBE2:00000000:1:1:AB', 'version 2'],
    ['TUBE1:00000000:2:1:AB', 'damaged'],
    ['TUBE1:00000000:0:1:AB', 'damaged'],
    [`TUBE1:00000000:1:${mostCodes + 1}:AB`, 'damaged'],
    ['TUBE1:00000000:1:1:', 'no job of Longpoint'],
  ])('%s is refused: %s', (text, why) => {
    expect(wordsOf(withCode(null, text))).toContain(why)
  })

  // jsQR is a reader that shares nothing with the maker of the codes.
  test('as they stand on the screen, four points to a square, are read by a reader of another make', async () => {
    const scale = 4
    for (const text of await made(sample())) {
      const { path, side } = codePath(text)
      // Version 16 has 81 squares a side (ISO/IEC 18004): no more, so that a phone shows them large enough.
      expect(side - 8).toBeLessThanOrEqual(81)
      const wide = side * scale
      const points = new Uint8ClampedArray(wide * wide * 4).fill(255)
      for (const [, x, y] of path.matchAll(/M(\d+) (\d+)/g))
        for (let dx = 0; dx < scale; dx++)
          for (let dy = 0; dy < scale; dy++) {
            const at = 4 * ((Number(y) * scale + dy) * wide + Number(x) * scale + dx)
            points.fill(0, at, at + 3)
          }
      expect(jsQR(points, wide, wide)?.data).toBe(text)
    }
  })
})

test('without indent a job file is the same file', () => {
  expect(readJobFile(writeJobFile(sample(), 0))).toEqual(readJobFile(writeJobFile(sample())))
})
