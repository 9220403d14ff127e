import { describe, expect, test } from 'vitest'
import { buildOf } from '../../src/core/builds/index.ts'
import { newJob } from '../../src/core/builds/start.ts'
import { plan } from '../../src/core/plan.ts'
import type { Shop } from '../../src/core/shop.ts'
import { type FitStrip, fitBlocks } from '../../src/paper/fit.ts'
import { pageSizes } from '../../src/paper/size.ts'
import { metric } from '../core/builds/framed.ts'

const blocksOf = (kind: string, params: object = {}, shop: Shop = metric, quantity = 1) => {
  const start = newJob(buildOf(kind)!, 'mm', 'job', 'A frame')
  const made = plan(
    { ...start, quantity, build: { kind, params: { ...start.build.params, ...params } } },
    shop,
  )
  if (!made.ok) throw new Error(made.problems[0]!.text)
  return fitBlocks(made.value, shop, pageSizes.A4).map(({ head, strips }) => ({
    head: head.what,
    strips: strips.map(({ what }) => what),
  }))
}

const said = (strips: readonly FitStrip[]): string[] =>
  strips.flatMap((strip) =>
    strip.kind === 'measure'
      ? [`${strip.label}: ${strip.must} [${strip.boxes}]`]
      : strip.kind === 'text'
        ? [strip.text]
        : strip.kind === 'pair'
          ? strip.texts
          : [],
  )

describe('the fit-up sheet', () => {
  test('a hexagon of 404 a side: three diagonals of 808 mm, three flats of 700 mm at both ends, six heights', () => {
    const [ring] = blocksOf('polygon-frame', { sides: 6, size: 700 })
    expect(said(ring!.strips)).toEqual([
      'Outside, at the points.',
      'Corner 1 to 4: 808 mm [1]',
      'Corner 2 to 5: 808 mm [1]',
      'Corner 3 to 6: 808 mm [1]',
      'Side 1–2 to side 4–5: 700 mm [2]',
      'Side 2–3 to side 5–6: 700 mm [2]',
      'Side 3–4 to side 6–1: 700 mm [2]',
      'Height of each corner over the table: all alike.',
      'Corners 1 to 3:  [3]',
      'Corners 4 to 6:  [3]',
    ])
  })

  test('every loop is there, those that read alike once: frame, and two cells beside a bar', () => {
    const heads = blocksOf('rect-frame').map(({ head }) => head)
    expect(heads[0]).toBe('Frame')
    expect(heads[1]).toMatch(/^Inside .*, and 1 like it$/)
    expect(heads.at(-1)).toBe('On the table: frame, top side down')
  })

  test('with a class chosen it says what that allows: ± 3 mm for 808 in class B, ± 3 mm flat in F', () => {
    const [ring] = blocksOf(
      'polygon-frame',
      { sides: 6, size: 700 },
      { ...metric, general: { linear: 'B', flat: 'F' } },
    )
    expect(said(ring!.strips)).toContain('ISO 13920: ± 3.0 mm, class B.')
    expect(said(ring!.strips)).toContain(
      'Height of each corner over the table: all alike. ISO 13920: ± 3.0 mm, class F.',
    )
  })

  test('a pedestal: post from the flats, blocks under the arms, what the feet reach, and which copy', () => {
    const blocks = blocksOf('pedestal', {}, metric, 3)
    const all = blocks.flatMap(({ strips }) => said(strips))
    expect(all[0]).toBe('Copy ____ of 3')
    // 346 a side: 599.3 across flats, 692 across corners, less the post of 80.
    expect(all.filter((text) => /^Post from side [14]: 260 mm \[2\]$/.test(text))).toHaveLength(2)
    expect(all.filter((text) => /^Post from corner [36]: 306 mm \[1\]$/.test(text))).toHaveLength(2)
    expect(all).toContain('Under Post, Arm 1, 2, 3 and 4: block 75 mm under end A.')
    expect(all.some((text) => text.includes('reach 10 mm to 25 mm, planned 15 mm'))).toBe(true)
    expect(all.filter((text) => /^Foot \d, /.test(text))).toHaveLength(4)
  })
})
