import { describe, expect, test } from 'vitest'
import { cap } from '../../../src/core/frame/cap.ts'
import { flat } from '../../../src/core/frame/flat.ts'
import type { Plate } from '../../../src/core/frame/frame.ts'
import { member } from '../../../src/core/frame/member.ts'
import type { Vec3 } from '../../../src/core/geometry/vec3.ts'
import { platesOf } from '../../../src/core/parts/plates.ts'
import type { Section } from '../../../src/core/section/section.ts'
import { startShop } from '../../../src/core/shop-start.ts'

const shop = startShop('mm')
const tube: Section = { kind: 'rect-tube', width: 50, height: 30, wall: 3, cornerRadius: 6 }
const pipe: Section = { kind: 'round-tube', width: 48.3, height: 48.3, wall: 3, cornerRadius: 0 }

function foot(x: number, y: number, up: Vec3, section: Section, holes: Plate['holes'] = []): Plate {
  const leg = member('leg', 'Leg', section, [0, 0, 700], [x, y, 0], up)
  return cap('cap', flat(leg, 'B', 0), 'B', 6, { holes }).plate
}
const marks = (plates: readonly Plate[]) =>
  platesOf(
    {
      plates,
      members: [],
      joints: [],
      hardware: [],
      assemblies: [],
      measures: [],
      warnings: [],
      size: [0, 0, 0],
      floor: 0,
    },
    shop,
  ).map(({ mark }) => mark)

describe('plates that are cut alike have one mark', () => {
  test('the caps of four legs splayed both ways, mirror images of each other: a plate is turned over', () => {
    const four = [
      [140, 90],
      [-140, 90],
      [-140, -90],
      [140, -90],
    ].map(([x, y]) => foot(x!, y!, [0, 1, 0], tube))
    expect(marks(four)).toEqual(['P1', 'P1', 'P1', 'P1'])
  })

  test('caps of round legs that lean alike, whichever way: one; 1 mm more lean at 700: another', () => {
    const round = [
      foot(140, 0, [0, 1, 0], pipe),
      foot(0, -140, [0, 1, 0.3], pipe),
      foot(141, 0, [0, 1, 0], pipe),
    ]
    expect(marks(round)).toEqual(['P1', 'P1', 'P2'])
  })

  test('a hole 3 mm off the middle: the same turned by half, another toward the other side', () => {
    const straight = (hole: readonly [number, number, number]) => foot(0, 0, [0, 1, 0], tube, [hole])
    expect(
      marks([straight([3, 0, 8]), straight([-3, 0, 8]), straight([0, 3, 8]), straight([3, 0, 9])]),
    ).toEqual(['P1', 'P1', 'P2', 'P3'])
  })
})
