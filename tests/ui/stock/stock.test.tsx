import { act, fireEvent, screen, within } from '@testing-library/react'
import { describe, expect, test } from 'vitest'
import { waysAsked } from '../../../src/app/ways.ts'
import type { RackPiece } from '../../../src/core/facts.ts'
import type { Part } from '../../../src/core/plan-shapes.ts'
import { Stock } from '../../../src/ui/stock/stock.tsx'
import { cutsWith, nest, plan, section, shop } from '../saw/bench-run.ts'
import { fakeApp, noProgress, viewWith } from '../saw/fake-app.tsx'

const withSection = viewWith({
  plan: {
    ...plan,
    demand: [{ section, way: 'square first', kerf: 2.5, trim: 10, grip: 0, parts: [], stock: [], keep: 300 }],
  },
})
const open = (...given: Parameters<typeof fakeApp>) => {
  const app = fakeApp(...given)
  app.put((view) => <Stock view={view} />)
  return app
}
const press = (name: RegExp | string) => fireEvent.click(screen.getByRole('button', { name }))
const drop: RackPiece = { id: 'dev:3', section, length: 1234, ends: ['cut', 'mill'], from: 'drop' }

describe('what to buy', () => {
  test('one length of 6000 is said with its mass, and Bought puts it on the rack', () => {
    const app = open(withSection)
    const buy = screen.getByRole('region', { name: 'To buy' })
    expect(within(buy).getAllByRole('listitem')[0]!.textContent).toContain(
      '40 × 40 × 3 mm square tube, 1 length 6 m',
    )
    press('Bought 1 length')
    expect(app.actions.bought).toHaveBeenCalledWith(section, 6000, 1, undefined)
  })

  test('what is bought already has no key any more, and says so', () => {
    open(withSection, {
      progress: { ...noProgress, rack: [{ ...drop, id: 'dev:9', length: 6000, from: 'bought' }] },
    })
    expect(screen.queryByRole('button', { name: /^Bought 1/ })).toBeNull()
    expect(within(screen.getByRole('region', { name: 'To buy' })).getByText('bought')).toBeTruthy()
  })

  test('the words stick and drop are the shop’s own', () => {
    open(withSection, { shop: { ...shop, says: 'stick and drop' } })
    expect(screen.getByRole('button', { name: 'Bought 1 stick' })).toBeTruthy()
  })
})

describe('what comes from what', () => {
  test('every stick is drawn with its pieces and what is left, and named for a screen reader', () => {
    open(withSection)
    expect(screen.getByRole('img').getAttribute('aria-label')).toBe(
      'Length S1, 6000 mm: A1, A2; left 5177 mm',
    )
    expect(screen.getByText('proved least: no plan buys less')).toBeTruthy()
  })

  test('not accepted yet: the key accepts it', () => {
    const app = open({ ...withSection, nesting: { state: 'found' } })
    press('Work by this layout')
    expect(app.actions.accept).toHaveBeenCalledWith('job-1')
  })

  test('accepted: said, and no key', () => {
    open(withSection)
    expect(screen.getByText(/^Accepted:/)).toBeTruthy()
    expect(screen.queryByRole('button', { name: 'Work by this layout' })).toBeNull()
  })

  test('a stick that is cut offers its drop, with the length', () => {
    const app = open({ ...withSection, cuts: cutsWith(['A1.b', 'A2.b']) })
    press('Keep the offcut of S1')
    expect(app.actions.keepDrop).toHaveBeenCalledWith('job-1', 'S1', 5177)
  })

  test('a refused nest is not shown: no sticks, no buy list, the faults instead', () => {
    open({ ...withSection, refused: ['Pieces overlap.'] })
    expect(screen.getByText('Pieces overlap.')).toBeTruthy()
    expect(screen.queryByRole('region', { name: 'To buy' })).toBeNull()
    expect(screen.queryByRole('img')).toBeNull()
  })
})

describe('a part and where it is cut', () => {
  const part = {
    mark: 'A',
    name: 'side',
    count: 2,
    key: 'key-a',
    members: ['side-1', 'side-2'],
    section,
    printed: { length: { mm: 404 } },
  } as unknown as Part
  const slopes = [
    { p: -0.5774, q: 0 },
    { p: 0.5774, q: 0 },
  ] as const
  const withParts = { ...withSection, plan: { ...withSection.plan!, parts: [{ ...part, slopes } as Part] } }

  test('its key says the sticks, and marks its pieces in the picture; a tap on a piece does the same', () => {
    open(withParts)
    press('A × 2')
    expect(screen.getByText(/side, 404 mm/).textContent).toBe('A side, 404 mm: S1 × 2.')
    const pieces = () => [...document.querySelectorAll('.stick-picture .piece')]
    expect(pieces().map((piece) => piece.classList.contains('chosen'))).toEqual([true, true])
    fireEvent.click(pieces()[0]!)
    expect(pieces().some((piece) => piece.classList.contains('chosen'))).toBe(false)
    fireEvent.click(pieces()[1]!)
    expect(screen.getByRole('button', { name: 'A × 2' }).getAttribute('aria-pressed')).toBe('true')
  })
})

describe('parts that are wanted from one stick', () => {
  const of = (mark: string, count: number, members: readonly string[], oneStick?: string) =>
    ({
      mark,
      name: 'side',
      count,
      key: `key-${mark.toLowerCase()}`,
      members,
      section,
      printed: { length: { mm: 404 } },
      slopes: [
        { p: 0, q: 0 },
        { p: 0, q: 0 },
      ],
      ...(oneStick === undefined ? {} : { oneStick }),
    }) as unknown as Part
  const found = (...parts: readonly Part[]) => ({
    ...withSection,
    nesting: { state: 'found' } as const,
    plan: { ...withSection.plan!, parts },
  })
  const tick = (name: string) => fireEvent.click(screen.getByRole('checkbox', { name }))
  const long = ['side-1', 'side-3']

  test('are asked for at the part: all of it, or with another of its section', () => {
    const app = open(found(of('A', 2, long), of('B', 1, ['bar-1'])))
    press('A × 2')
    tick('all 2 A')
    expect(app.actions.editJob).toHaveBeenLastCalledWith('job-1', { oneStick: [long] })
    tick('with B')
    expect(app.actions.editJob).toHaveBeenLastCalledWith('job-1', { oneStick: [[...long, 'bar-1']] })
  })

  test('stand there, and are given up with the same key; one alone has nothing to share', () => {
    const view = found(of('A', 2, long, 'job-1/A'), of('B', 1, ['bar-1'], 'job-1/A'))
    const app = open({ ...view, job: { ...view.job, oneStick: [[...long, 'bar-1']] } })
    expect(screen.getByText(/^From one length/).textContent).toBe('From one length: A × 2 and B.')
    press('A × 2')
    tick('with B')
    expect(app.actions.editJob).toHaveBeenLastCalledWith('job-1', { oneStick: [long] })
    tick('all 2 A')
    expect(app.actions.editJob).toHaveBeenLastCalledWith('job-1', { oneStick: undefined })
  })

  test('an accepted layout stays as it is: they are said, with no key to change them', () => {
    open({ ...found(of('A', 2, long, 'job-1/A')), nesting: { state: 'accepted' } })
    press('A × 2')
    expect(screen.queryByRole('checkbox', { name: 'all 2 A' })).toBeNull()
    expect(screen.getByText(/^From one length/).textContent).toBe('From one length: A × 2.')
  })

  test('where no stick is long enough the wish is given up with one key', () => {
    const why = '2 × A are to come from one stick and need 7 m of it; the longest is 6 m.'
    const view = found(of('A', 2, long, 'job-1/A'))
    const app = open({
      ...view,
      nest: null,
      nesting: { state: 'failed', text: why },
      job: { ...view.job, oneStick: [long] },
    })
    expect(screen.getByText(why)).toBeTruthy()
    press('A × 2: from any length')
    expect(app.actions.editJob).toHaveBeenLastCalledWith('job-1', { oneStick: undefined })
  })
})

describe('what other stock would change', () => {
  test('is asked for with a key, and said in sticks and in what is bought', () => {
    const comes = { sticks: 2, bought: 8000, proved: true }
    const app = open(withSection)
    press('Compare with other lengths and without the rack')
    expect(app.actions.compare).toHaveBeenCalledWith('job-1')
    act(() =>
      app.store.setState({
        compared: {
          'job-1': {
            asked: JSON.stringify(withSection.plan!.demand),
            working: false,
            rows: [
              { section, length: 4000, comes },
              { section, length: 6500, comes: { sticks: 1, bought: 6500, proved: false } },
              { section, comes },
              { section, length: 300, comes: { not: 'Part A is longer.' } },
            ],
          },
        },
      }),
    )
    const said = within(screen.getByRole('region', { name: 'What other lengths would change' }))
      .getAllByRole('listitem')
      .map((item) => item.textContent)
    // The nest buys one length of 6000.
    expect(said).toEqual([
      'only 4 m: 2 lengths, 2 m more bought',
      'only 6.5 m: 1 length, 500 mm more bought (best found, not proved)',
      'without the rack: 2 lengths, 2 m more bought. The rack saves 1 length',
      'only 300 mm: cannot be done. Part A is longer.',
    ])
  })
})

describe('the ways of cutting', () => {
  const found = { ...withSection, nesting: { state: 'found' } } as const
  const work = { heads: 1, stops: 2, loads: 3, turns: 4, cuts: 19, minutes: 14.6 }
  const square = {
    way: 'square first',
    sticks: 1,
    cost: 6000,
    priced: false,
    drop: 5177,
    work,
    left: 0,
  } as const
  const stick = {
    ...square,
    way: 'from the stick',
    work: { ...work, stops: 1, loads: 1, cuts: 7, minutes: 9 },
  } as const
  const open3 = () => {
    const app = open(found)
    press('Compare the ways of cutting')
    const { store } = app
    act(() =>
      store.setState({
        ways: {
          'job-1': {
            asked: waysAsked(found.job, store.getState()),
            working: false,
            rows: [
              { way: 'square first', notes: [], comes: square },
              { way: 'from the stick', notes: [], comes: stick },
              { way: 'paired', notes: ['A stays single.'], comes: { not: 'Too long.' } },
            ],
          },
        },
      }),
    )
    return app
  }
  const region = () => screen.getByRole('region', { name: 'Ways of cutting' })

  test('stand side by side when it is asked; the present one is marked, and a key cuts in another one', () => {
    const app = open3()
    expect(app.actions.compareWays).toHaveBeenCalledWith('job-1')
    const said = [...region().querySelectorAll('.way')].map((way) => way.textContent)
    expect(said).toEqual([
      'Square firstThis layout1 length, 6 m bought5177 mm left in offcuts19 cuts1 head change2 stop moves3 loadsabout 15 minutes',
      'Miter from the stick1 length, 6 m bought5177 mm left in offcuts7 cuts1 head change1 stop move1 loadabout 9 minutesCut this way',
      'Paired blanksCannot be done. Too long.A stays single.',
    ])
    expect(within(region()).getAllByRole('button', { name: /^Cut this way/ })).toHaveLength(1)
    press('Cut this way: miter from the stick')
    expect(app.actions.editJob).toHaveBeenCalledWith('job-1', { way: 'from the stick' })
  })

  test('figures for another size are not shown', () => {
    const app = open3()
    act(() => app.store.setState({ views: { 'job-1': { ...found, job: { ...found.job, quantity: 2 } } } }))
    expect(region().querySelector('.way')).toBeNull()
  })

  test('of an accepted layout cannot be changed, and that is said', () => {
    open(withSection, { progress: { ...noProgress, accepted: { 'job-1': nest.id } } })
    expect(region().textContent).toContain('is accepted, so the way of cutting stays as it is')
    expect(within(region()).queryByRole('button')).toBeNull()
  })

  test('a job that cannot be laid out in the way that was chosen has a key back to square first', () => {
    const app = open({
      ...found,
      nest: null,
      nesting: { state: 'failed' },
      job: { ...found.job, way: 'from the stick' },
    })
    expect(region().textContent).toContain('set to be cut: miter from the stick')
    press('Cut square first instead')
    expect(app.actions.editJob).toHaveBeenCalledWith('job-1', { way: 'square first' })
  })
})

describe('the rack', () => {
  const racked = () => open(withSection, { progress: { ...noProgress, rack: [drop] } })

  test('a drop can be discarded and corrected, each key named with what it is for', () => {
    const app = racked()
    press(/^Discard offcut [A-Z0-9]{3}, 1234 mm$/)
    expect(app.actions.discard).toHaveBeenCalledWith('dev:3')
    press(/^Correct offcut [A-Z0-9]{3}, 1234 mm$/)
    const field = screen.getByLabelText('Real length of this offcut')
    fireEvent.change(field, { target: { value: '1230' } })
    fireEvent.keyDown(field, { key: 'Enter' })
    expect(app.actions.correct).toHaveBeenCalledWith('dev:3', 1230)
  })

  test('two found offcuts of 35 in are typed in inches and put there with cut ends', () => {
    const app = open(withSection)
    fireEvent.click(screen.getByText('Put something on the rack'))
    fireEvent.change(screen.getByLabelText('Length'), { target: { value: '35"' } })
    fireEvent.keyDown(screen.getByLabelText('Length'), { key: 'Enter' })
    press('How many: one more')
    press('Found: put on the rack')
    expect(app.actions.found).toHaveBeenCalledTimes(2)
    expect(app.actions.found).toHaveBeenCalledWith({ section, length: 889, ends: ['cut', 'cut'] })
  })

  test('three alike are one line with their number, each still with its own mark and keys', () => {
    const app = open(withSection, {
      progress: { ...noProgress, rack: ['dev:3', 'dev:4', 'dev:5'].map((id) => ({ ...drop, id })) },
    })
    const rack = screen.getByRole('region', { name: 'On the rack' })
    expect(rack.querySelector('.rack-alike summary')!.textContent).toContain('3 × 1234')
    const marks = [...rack.querySelectorAll('.rack-mark')].map((mark) => mark.textContent)
    expect(new Set(marks).size).toBe(3)
    press(`Discard offcut ${marks[1]}, 1234 mm`)
    expect(app.actions.discard).toHaveBeenCalledWith('dev:4')
  })

  test('a length that is not understood cannot be added', () => {
    const app = open(withSection)
    fireEvent.click(screen.getByText('Put something on the rack'))
    fireEvent.change(screen.getByLabelText('Length'), { target: { value: '7/0' } })
    fireEvent.keyDown(screen.getByLabelText('Length'), { key: 'Enter' })
    const add = screen.getByRole('button', { name: 'Found: put on the rack' }) as HTMLButtonElement
    expect(add.disabled).toBe(true)
    fireEvent.click(add)
    expect(app.actions.found).not.toHaveBeenCalled()
  })

  test('a rack piece that the nest cuts from says which stick it is', () => {
    const sticks = nest.sections[0]!.sticks.map((one) => ({ ...one, from: 'rack' as const, rack: 'dev:3' }))
    open(
      { ...withSection, nest: { ...nest, sections: [{ ...nest.sections[0]!, sticks }] } },
      { progress: { ...noProgress, rack: [drop] } },
    )
    expect(screen.getByText(/of this job/).textContent).toContain('S1')
    expect(screen.getByText('No tube and no bar: the rack has it all.')).toBeTruthy()
  })
})
