import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/builds/index.ts'
import { startParams } from '../../../src/core/builds/start.ts'
import { fold } from '../../../src/core/facts/fold.ts'
import type { Fact } from '../../../src/core/facts.ts'
import { lastTimeOf } from '../../../src/core/finish/last-time.ts'
import { buildRecord, recordText } from '../../../src/core/finish/record.ts'
import { timesOf } from '../../../src/core/finish/times.ts'
import type { Job } from '../../../src/core/job.ts'
import { plan } from '../../../src/core/plan.ts'
import { metric, tube } from '../builds/framed.ts'
import { blank, tablet } from '../facts/log.ts'

const shop = { ...metric, reading: { kind: 'mm', step: 1 } } as const
const job: Job = {
  id: 'J1',
  name: 'Porch table',
  quantity: 2,
  note: 'for the porch',
  shrinkage: { miter: 0.4 },
  build: {
    kind: 'polygon-frame',
    params: {
      ...startParams(buildOf('polygon-frame')!, 'mm'),
      sides: 6,
      sizeKind: 'across flats',
      size: 700,
      section: tube(40, 3),
    },
  },
}
const made = plan(job, shop)
if (!made.ok) throw new Error('the hexagon does not plan')

const setting = {
  process: 'wire, short-circuit',
  wall: 3,
  joint: 'outside',
  wire: '.030',
  gas: '75/25',
  volts: 18,
  wireSpeed: 180,
}

/** One tablet cut two pieces, tacked, welded and measured copy 2. */
function log(): readonly Fact[] {
  const one = tablet('a')
  const on2 = { copy: 2 }
  const at = (time: string) => ({ at: `2029-12-31T${time}:00.000Z` })
  const cut = one.write('cut', blank('S1'), { ...on2, nest: 'N1', ...at('23:50') })
  one.write('measured', { piece: cut.id, what: 'long point', got: 404.5, wanted: 404 }, at('23:58'))
  one.write('gauged', { of: 'diagonal:top/1-4', value: 808.3 }, { ...on2, ...at('23:59') })
  one.write('tacked', { step: 'tack:top/corner-1/outside' }, { ...on2, at: '2030-01-01T00:00:00.000Z' })
  one.write('setTo', setting, { ...on2, at: '2030-01-01T00:06:00.000Z' })
  // Noon was between: a pause.
  one.write('welded', { step: 'pass:top/corner-1/outside' }, { ...on2, at: '2030-01-01T02:00:00.000Z' })
  one.write('noted', { of: 'pass:top/corner-1/outside', text: 'a little cold' }, on2)
  one.write('noted', { of: 'job', text: 'clamp the long side' }, on2)
  one.write('gauged', { of: 'size:across flats', value: 699.2 }, { ...on2, at: '2030-01-01T03:00:00.000Z' })
  one.write('gauged', { of: 'minutes:weld', value: 45 }, on2)
  return one.log
}

const recorded = (facts: readonly Fact[], copy = 2) => ({
  plan: made.value,
  job,
  shop,
  progress: fold(facts),
  facts,
  copy,
  sayTime: (at: string) => at.slice(5, 16),
})

describe('the build record', () => {
  const sections = new Map(buildRecord(recorded(log())).map((one) => [one.title.split(' (')[0]!, one.rows]))
  test('asked, planned and measured of each size; 699.2 for 700 is 0.8 mm less', () => {
    const flats = sections.get('Sizes')!.find(([name]) => name === 'across flats')!
    expect([flats[1], flats[3], flats[4]]).toEqual(['700 mm', '699.2 mm', '0.8 mm less'])
    const corners = sections.get('Sizes')!.find(([name]) => name === 'across corners')!
    // Follows and was not measured.
    expect([corners[1], corners[3], corners[4]]).toEqual(['', '', ''])
  })
  test('the first piece, what was measured at the bench, the machine, the allowance, notes and steps', () => {
    expect(sections.get('Pieces measured at the saw')).toEqual([
      ['A1.b, long point', '', '404.0 mm', '404.5 mm', '0.5 mm more'],
    ])
    expect(sections.get('Measured at fit-up and weld')).toEqual([['diagonal: 1 to 4', '808.3 mm']])
    expect(sections.get('Machine settings')).toEqual([
      ['outside, wall 3 mm', '18 V, wire .030, 180 in/min of wire, 75/25'],
    ])
    expect(sections.get('Steel')).toContainEqual(['Planned for each mitered joint to draw in', '0.40 mm'])
    expect(sections.get('Notes')).toEqual([
      ['The job', 'for the porch'],
      ['Weld corner 1, outside', 'a little cold'],
      ['The whole', 'clamp the long side'],
    ])
    expect(sections.get('Steps done')![0]![1]).toMatch(/^2 of \d+$/)
  })
  test('times: over midnight, the pause left out, and what the person says beside it', () => {
    expect(sections.get('Time')).toEqual([
      ['saw, all 2 copies', '12-31T23:50', '12-31T23:58', '8 min', ''],
      ['fit-up', '12-31T23:59', '12-31T23:59', '', ''],
      ['weld', '01-01T00:00', '01-01T02:00', '6 min', '45'],
      ['finish', '01-01T03:00', '01-01T03:00', '', ''],
    ])
  })
  test('of the other copy nothing is known but the saw; as text each figure says what it is', () => {
    const text = recordText(recorded(log(), 1))
    expect(text).toContain('Porch table, copy 1 of 2: build record')
    expect(text).not.toContain('699.2')
    expect(text).not.toContain('a little cold')
    expect(recordText(recorded(log()))).toContain(
      '  across flats: asked 700 mm, planned 700.7 mm, measured 699.2 mm, off 0.8 mm less',
    )
  })
  test('an undone note is in no record', () => {
    const one = tablet('a')
    const note = one.write('noted', { of: 'job', text: 'wrong' }, { copy: 2 })
    const undone = one.write('undo', { fact: note.id })
    expect(recordText(recorded([note, undone]))).not.toContain('wrong')
  })
})

test('two tablets at work at once count as two people: 10 and 10 minutes', () => {
  const [one, two] = [tablet('a'), tablet('b')]
  const at = (minute: string) => ({ copy: 1, at: `2030-01-01T08:${minute}:00.000Z` })
  const facts = ['00', '10'].flatMap((minute) => [
    one.write('tacked', { step: `tack:${minute}` }, at(minute)),
    two.write('tacked', { step: `tack:b${minute}` }, at(minute)),
  ])
  expect(timesOf(facts, 'J1', 1)).toMatchObject([{ stage: 'weld', minutes: 20 }])
})

test('a time that is none is left out and breaks nothing', () => {
  const fact = tablet('a').write('tacked', { step: 'tack:1' }, { at: 'a clock gone wrong' })
  expect(timesOf([fact], 'J1', 1)).toEqual([])
})

describe('a copy a year later', () => {
  const copy: Job = { ...job, id: 'J2', name: 'Porch table copy', from: 'J1' }
  const facts = log()
  test('offers notes at their steps, minutes, and what was measured', () => {
    expect(lastTimeOf(copy, [job, copy], fold(facts), facts)).toEqual({
      job: 'J1',
      name: 'Porch table',
      notes: { 'pass:top/corner-1/outside': ['a little cold'], job: ['clamp the long side'] },
      minutes: { saw: 8, weld: 45 },
      measured: { 'diagonal:top/1-4': [808.3], 'size:across flats': [699.2] },
      miscuts: [],
    })
  })
  test('also when the first job is off the list, and through a copy that was never made', () => {
    const again: Job = { ...copy, id: 'J3', from: 'J2' }
    expect(lastTimeOf(again, [copy, again], fold(facts), facts)).toMatchObject({ job: 'J1' })
  })
  test('refused, or copied from nothing that was made, it offers nothing', () => {
    const { from: _from, ...refused } = copy
    expect(lastTimeOf(refused, [job, refused], fold(facts), facts)).toBeUndefined()
    expect(lastTimeOf({ ...copy, from: 'J9' }, [job], fold(facts), facts)).toBeUndefined()
    expect(lastTimeOf({ ...copy, from: 'J2' }, [job], fold(facts), facts)).toBeUndefined()
  })
})
