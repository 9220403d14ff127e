import { describe, expect, test } from 'vitest'
import { fromPoints } from '../../../src/core/builds/from-points.ts'
import { startParams } from '../../../src/core/builds/start.ts'
import type { Params, RowGiven } from '../../../src/core/job.ts'
import { newName, withNames } from '../../../src/ui/sizes/names.ts'
import { readPasted } from './pasted-rows.ts'

const params = startParams(fromPoints, 'mm')
const specOf = (name: string) => fromPoints.params.find((spec) => spec.name === name)!
const column = (list: string, name: string) => specOf(list).columns!.find((each) => each.name === name)!
const rowsOf = (of: Params, name: string) => of[name] as readonly RowGiven[]
const called = (names: readonly string[]) => names.map((name): RowGiven => ({ name }))

describe('the name of a new row', () => {
  test.each([
    [['a', 'b'], 'c'],
    [['a', 'c', 'b'], 'd'],
    [['rail'], 'rail 2'],
    [['rail', 'rail 2'], 'rail 3'],
    [['P9'], 'P10'],
    [['z'], 'z1'],
    [[], 'a'],
  ])('after %j it is %s', (names, next) =>
    expect(newName(column('points', 'name'), called(names), params)).toBe(next),
  )

  test('of a joint is the first point without one: a and b have theirs, c follows', () =>
    expect(newName(column('joints', 'at'), rowsOf(params, 'joints'), params)).toBe('c'))
})

describe('a row that is called otherwise', () => {
  const renamed = (from: string, to: string, of = params) =>
    withNames(
      fromPoints.params,
      of,
      specOf('points'),
      rowsOf(of, 'points').map((row) => (row.name === from ? { ...row, name: to } : row)),
    )

  test('a becomes foot: the member and the joint that name it follow', () => {
    const changed = renamed('a', 'foot')
    expect(rowsOf(changed, 'points')[0]).toMatchObject({ name: 'foot', x: 0 })
    expect(rowsOf(changed, 'members')[0]).toEqual({ name: 'Left leg', from: 'foot', to: 'c' })
    expect(rowsOf(changed, 'joints')[0]).toEqual({ at: 'foot', how: 'flat' })
  })

  test('a becomes b, a name that another has: nothing follows, and what named a still does', () => {
    const changed = renamed('a', 'b')
    expect(rowsOf(changed, 'points')[0]).toMatchObject({ name: 'b' })
    expect(Object.keys(changed)).toEqual(['points'])
  })

  test('another place for a point changes no name', () => {
    const moved = rowsOf(params, 'points').map((row) => ({ ...row, z: 5 }))
    expect(Object.keys(withNames(fromPoints.params, params, specOf('points'), moved))).toEqual(['points'])
  })

  test('two names changed at once are another list, pasted: nothing follows', () => {
    const rows = rowsOf(params, 'points').map((row, at) => (at < 2 ? { ...row, name: `new ${at}` } : row))
    expect(Object.keys(withNames(fromPoints.params, params, specOf('points'), rows))).toEqual(['points'])
  })

  test('a member called otherwise still runs through', () => {
    const of = { ...params, joints: [{ at: 'c', how: 'butt', runs: 'Top' }] }
    const members = rowsOf(of, 'members').map((row) => (row.name === 'Top' ? { ...row, name: 'Beam' } : row))
    const changed = withNames(fromPoints.params, of, specOf('members'), members)
    expect(rowsOf(changed, 'joints')).toEqual([{ at: 'c', how: 'butt', runs: 'Beam' }])
  })
})

describe('pasted points and members', () => {
  test('points under a head', () =>
    expect(readPasted('Point\tx\ty\tz\nP1\t0\t0\t-12.5', specOf('points').columns!, 'mm')).toEqual({
      ok: true,
      value: [{ name: 'P1', x: '0', y: '0', z: '-12.5' }],
    }))

  test('a member of words only is no head', () =>
    expect(readPasted('Rail\ta\tb\nTop\tc\td\t45', specOf('members').columns!, 'mm')).toEqual({
      ok: true,
      value: [
        { name: 'Rail', from: 'a', to: 'b' },
        { name: 'Top', from: 'c', to: 'd', roll: 45 },
      ],
    }))

  test('names of the columns are', () =>
    expect(readPasted('Member;From point;To point\nRail;a;b', specOf('members').columns!, 'mm')).toEqual({
      ok: true,
      value: [{ name: 'Rail', from: 'a', to: 'b' }],
    }))
})
