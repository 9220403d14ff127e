import { describe, expect, test } from 'vitest'
import { flat } from '../../src/core/frame/flat.ts'
import { endIndex, member } from '../../src/core/frame/member.ts'
import { type FirstCut, saddle } from '../../src/core/frame/saddle.ts'
import { axisX, axisY, origin } from '../../src/core/geometry/pose.ts'
import { add, cross, dot, norm, scale, sub, type Vec3 } from '../../src/core/geometry/vec3.ts'
import type { Section } from '../../src/core/section/section.ts'
import { cosDeg, sinDeg } from '../../src/core/units.ts'
import { lap, lineOf, type OnPaper, onTile, templateOf, tilesOf } from '../../src/paper/saddle.ts'

const pipe = (width: number): Section => ({
  kind: 'round-tube',
  width,
  height: width,
  wall: 3,
  cornerRadius: 0,
})
const post = member('post', 'Post', pipe(60.3), [0, 0, -500], [0, 0, 500], [0, 1, 0])

/** A brace of 48.3 on the post, rising 35°, 5 mm beside its axis, rolled by 20°: no symmetry left. */
function brace(end: 'A' | 'B', first: FirstCut = 'square', diameter = 48.3, beside = 5) {
  const [far, near]: [Vec3, Vec3] = [
    [400 * cosDeg(35), beside, 400 * sinDeg(35)],
    [0, beside, 0],
  ]
  const up: Vec3 = [0, sinDeg(20), cosDeg(20)]
  const start = member(
    'brace',
    'Brace',
    pipe(diameter),
    end === 'A' ? near : far,
    end === 'A' ? far : near,
    up,
  )
  const made = saddle('node', start, end, post, 0, (mm) => `${mm}`, first)
  if (!made.ok) throw new Error(made.problems[0]!.text)
  return made.value.member
}

const axisAway = (at: Vec3) => norm(cross(sub(at, origin(post.pose)), axisX(post.pose)))

describe('the template, wrapped round the tube as a person does it', () => {
  test.each(['A', 'B'] as const)(
    'end %s: top edge on the sawn end, print outside, edges on the line: every point of the line within 0.05 mm of the post',
    (end) => {
      const of = brace(end)
      const { round, saddle: line, high } = templateOf(of, end)
      expect(round).toBeCloseTo(Math.PI * 48.4, 9)
      const out = scale(axisX(of.pose), end === 'B' ? 1 : -1)
      const onLine = axisY(of.pose)
      const sawn = add(origin(of.pose), scale(axisX(of.pose), of.ends[endIndex(end)].point[0]))
      // Seen from outside with the end up, right is up × toward the eye.
      const right = cross(out, onLine)
      let most = 0
      for (const [k, [s, t]] of line.entries()) {
        const wrap = ([u, v]: OnPaper) => {
          const turn = (2 * Math.PI * u) / round
          const away = add(scale(onLine, Math.cos(turn)), scale(right, Math.sin(turn)))
          return add(add(sawn, scale(out, -v)), scale(away, 24.15))
        }
        const before = line[k - 1] ?? [s, t]
        for (const at of [
          [s, t],
          [(s + before[0]) / 2, (t + before[1]) / 2],
        ] as const)
          most = Math.max(most, Math.abs(axisAway(wrap(at)) - 30.15))
      }
      expect(most).toBeLessThan(0.05)
      const ts = line.map(([, t]) => t)
      expect(Math.min(...ts)).toBeCloseTo(0, 2)
      expect(high - Math.max(...ts)).toBeCloseTo(30, 2)
    },
  )

  test('other end flat at a height of 200: side edges on the line from its long point, found on the steel, within 0.05 mm', () => {
    const of = flat(brace('A'), 'B', 200)
    const { round, saddle: line, line: edges } = templateOf(of, 'A')
    expect(edges.from).toBe('B')
    const axis = axisX(of.pose)
    // What is cut level reaches farthest along a rising tube on its underside.
    const down: Vec3 = [0, 0, -1]
    const level = sub(down, scale(axis, dot(down, axis)))
    const onLine = scale(level, 1 / norm(level))
    const out = scale(axis, -1)
    const right = cross(out, onLine)
    const sawn = add(origin(of.pose), scale(axis, of.ends[0].point[0]))
    const off = line.map(([s, t]) => {
      const turn = (2 * Math.PI * s) / round
      const away = add(scale(onLine, Math.cos(turn)), scale(right, Math.sin(turn)))
      return Math.abs(axisAway(add(add(sawn, scale(out, -t)), scale(away, 24.15))) - 30.15)
    })
    expect(Math.max(...off)).toBeLessThan(0.05)
  })

  test('both ends of a part meet on one line: the long point of end A, where the saw miters both', () => {
    const of = flat(brace('A', 'miter'), 'B', 200)
    expect(lineOf(of).from).toBe('A')
    expect(templateOf(of, 'A').line).toEqual(lineOf(of))
    expect(lineOf(brace('A'))).toEqual({ angle: 0 })
  })

  test('a mirror image of it would be wrong by many mm', () => {
    const { round, saddle: line } = templateOf(brace('B'), 'B')
    const at = (s: number) => line.find(([u]) => u >= s)![1]
    const off = Array.from({ length: 32 }, (_, k) =>
      Math.abs(at((round * k) / 32) - at((round * (32 - k)) / 32)),
    )
    expect(Math.max(...off)).toBeGreaterThan(5)
  })

  test('mitered first: the sawn end is drawn, and the saddle lies below it, touching it', () => {
    const { saddle: line, sawn, round } = templateOf(brace('B', 'miter'), 'B')
    const at = (of: readonly OnPaper[], s: number) => {
      const after = Math.max(
        1,
        of.findIndex(([u]) => u >= s),
      )
      const [[x, y], [u, v]] = [of[after - 1]!, of[after]!]
      return y + ((v - y) * (s - x)) / (u - x)
    }
    const left = Array.from({ length: 400 }, (_, k) => {
      const s = ((k + 0.5) * round) / 400
      return at(line, s) - at(sawn, s)
    })
    expect(Math.min(...left)).toBeGreaterThan(-0.02)
    expect(Math.min(...left)).toBeLessThan(0.1)
    expect(templateOf(brace('B'), 'B').sawn).toEqual([])
  })
})

describe('a template larger than the page', () => {
  const template = templateOf(brace('B', 'square', 60.3, 0), 'B')
  const length = (line: readonly OnPaper[]) =>
    line.slice(1).reduce((sum, [x, y], k) => sum + Math.hypot(x - line[k]![0], y - line[k]![1]), 0)

  test('189.75 mm round fits on 189.8 in one piece, not on 189.7', () => {
    expect(template.round).toBeCloseTo(Math.PI * 60.4, 9)
    expect(tilesOf(template, 189.8, 500)).toHaveLength(1)
    expect(tilesOf(template, 189.7, 500)).toHaveLength(2)
  })

  test.each([
    [100, 500],
    [500, 60],
    [70, 50],
  ])('in pieces of %d × %d: none is larger, and without the laps they are the whole line', (wide, high) => {
    const tiles = tilesOf(template, wide, high)
    expect(tiles.length).toBeGreaterThan(1)
    for (const tile of tiles) {
      expect(tile.wide).toBeLessThanOrEqual(wide + 1e-9)
      expect(tile.high).toBeLessThanOrEqual(high + 1e-9)
      for (const [x, y] of onTile(template.saddle, tile).flat()) {
        expect(x).toBeGreaterThan(-1e-9)
        expect(x).toBeLessThan(tile.wide + 1e-9)
        expect(y).toBeGreaterThan(-1e-9)
        expect(y).toBeLessThan(tile.high + 1e-9)
      }
    }
    const bare = tiles.map((tile) => ({
      ...tile,
      wide: tile.wide - (tile.column < tile.columns - 1 ? lap : 0),
      high: tile.high - (tile.row < tile.rows - 1 ? lap : 0),
    }))
    const sum = bare.reduce(
      (all, tile) => all + onTile(template.saddle, tile).reduce((own, line) => own + length(line), 0),
      0,
    )
    expect(sum).toBeCloseTo(length(template.saddle), 6)
  })

  test('a point on a lap is drawn on both pieces, 94.9 mm apart on their own paper', () => {
    const [one, two] = tilesOf(template, 150, 500)
    const across = (tile: typeof one) =>
      onTile(
        [
          [96, 0],
          [96, 20],
        ],
        tile!,
      )[0]![0]!
    expect(across(one)[0] - across(two)[0]).toBeCloseTo(template.round / 2, 9)
  })
})
