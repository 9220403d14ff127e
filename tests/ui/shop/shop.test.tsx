import { act, cleanup, fireEvent, screen, within } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import type { Shop as Figures } from '../../../src/core/shop.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { freeId } from '../../../src/ui/shop/saws.tsx'
import { Shop } from '../../../src/ui/shop/shop.tsx'
import { fakeApp, jobOf, show } from '../shell/fake-app.tsx'

beforeEach(() => vi.useFakeTimers())
afterEach(() => {
  cleanup()
  vi.useRealTimers()
})

function open(units: 'in' | 'mm' = 'mm', some: Partial<Figures> = {}) {
  const app = fakeApp([jobOf('polygon-frame')], { ...startShop(units), ...some })
  show(app, <Shop />)
  return app
}

const kept = (app: ReturnType<typeof open>) => app.store.getState().shop

const fill = async (label: string, text: string) => {
  fireEvent.change(screen.getByRole('textbox', { name: label }), { target: { value: text } })
  await act(async () => vi.advanceTimersByTime(600))
}
const choose = async (name: string) => {
  fireEvent.click(screen.getByRole('radio', { name }))
  await act(async () => undefined)
}

describe('what is true in the shop', () => {
  test('reading, words, hand, daylight and paper are kept as they are chosen', async () => {
    const app = open()
    fireEvent.change(screen.getByRole('combobox', { name: 'Lengths are read in' }), {
      target: { value: 'in/32' },
    })
    await act(async () => undefined)
    await choose('stick, drop')
    await choose('left hand')
    await choose('Letter')
    fireEvent.click(screen.getByRole('checkbox', { name: /Daylight/ }))
    await act(async () => undefined)
    expect(kept(app)).toMatchObject({
      reading: { kind: 'inch-fraction', denominator: 32 },
      says: 'stick and drop',
      hand: 'left',
      paper: 'Letter',
      daylight: true,
    })
  })

  test('figures that nobody changed begin again in the unit that is chosen, and only these', async () => {
    const app = open('in', { currency: 'kr' })
    expect(screen.queryByRole('button', { name: 'Begin in mm' })).toBeNull()
    fireEvent.change(screen.getByRole('combobox', { name: 'Lengths are read in' }), {
      target: { value: 'mm0.5' },
    })
    await act(async () => undefined)
    expect(kept(app).usualLengths).toEqual([6096, 7315.2])
    expect(screen.getByText(/In mm they begin with 6 m,/)).toBeTruthy()
    fireEvent.click(screen.getByRole('button', { name: 'Begin in mm' }))
    await act(async () => undefined)
    const { saws, usualLengths, leastDrop, paper, mass, currency, reading } = kept(app)
    expect({ usualLengths, leastDrop, paper, mass, currency, reading }).toEqual({
      usualLengths: [6000],
      leastDrop: 300,
      paper: 'A4',
      mass: 'kg',
      currency: 'kr',
      reading: { kind: 'mm', step: 0.5 },
    })
    expect(saws[0]!.blades[0]!.kerf).toBe(2.5)
    expect(screen.queryByRole('button', { name: 'Begin in mm' })).toBeNull()
  })

  test('one own figure, and the others are nobody’s to change', async () => {
    open('in', { usualLengths: [6100] })
    fireEvent.change(screen.getByRole('combobox', { name: 'Lengths are read in' }), {
      target: { value: 'mm1' },
    })
    await act(async () => undefined)
    expect(screen.queryByRole('button', { name: 'Begin in mm' })).toBeNull()
  })

  test('what is said at every set-up, what marks with, and how far off a first piece may be', async () => {
    const app = open()
    fireEvent.click(screen.getByRole('checkbox', { name: /Clear the chips/ }))
    await act(async () => undefined)
    await choose('scribe or stamp')
    await fill('A first piece may be off by', '0.4')
    expect(kept(app)).toMatchObject({ habitsOff: ['chips'], markWith: 'scribe or stamp', tolerance: 0.4 })
    fireEvent.click(screen.getByRole('checkbox', { name: /Clear the chips/ }))
    await act(async () => undefined)
    expect(kept(app).habitsOff).toEqual([])
  })

  test('what another way of cutting must save: steel while nothing has a price, then money; empty for a stick only', async () => {
    const app = open()
    const asks = 'Another way of cutting is proposed when it saves at least'
    await fill(`${asks} this much steel (may be left out)`, '250')
    expect(kept(app).otherWaySaves).toBe(250)
    await fill(`${asks} this much steel (may be left out)`, '')
    expect(kept(app).otherWaySaves).toBeUndefined()
    cleanup()
    const section = { kind: 'square-tube', width: 40, height: 40, wall: 3, cornerRadius: 6 } as const
    const priced = open('mm', { sections: [{ section, name: '40', stock: [{ length: 6000, price: 4590 }] }] })
    await fill(`${asks}, ${kept(priced).currency} (may be left out)`, '12.50')
    expect(kept(priced).otherWaySaves).toBe(1250)
  })

  test('two square cuts side by side in the vise', async () => {
    const app = open()
    await choose('2')
    expect(kept(app).saws[0]!.gang).toBe(2)
  })

  test('a saw: stop on the right, vise swings, reads 90 at square, kerf 1.2, least to hold 50', async () => {
    const app = open()
    await choose('right')
    await choose('vise')
    await choose('90°')
    await fill('Kerf', '1.2')
    await fill('Least to hold', '50')
    await fill('Greatest miter, far end of the blade toward the stop', '60')
    expect(kept(app).saws[0]).toMatchObject({
      stopSide: 'right',
      swings: 'vise',
      readsAtSquare: 90,
      leastToHold: 50,
      limits: { towardStop: 60, awayFromStop: 45 },
      blades: [{ kerf: 1.2 }],
    })
  })

  test('a miter of 95° is refused beside its field and not kept', async () => {
    const app = open()
    await fill('Greatest miter, far end of the blade toward the stop', '95')
    expect(screen.getByRole('alert').textContent).toBe('95° was given; 0 to 89 is possible.')
    expect(kept(app).saws[0]?.limits.towardStop).toBe(45)
  })

  // Each of these was put back to the old figure without a word beside it.
  test.each([
    [
      'Kerf',
      '0',
      '0 mm was given; more than 0 mm to 10 mm is possible: the clean-up cut of a mill end takes it.',
    ],
    [
      'Clean-up cut of a mill end',
      '1',
      '1 mm was given; 0 for none, or 2.5 mm or more is possible: the kerf of the blade is taken off with it.',
    ],
    ['Least to hold', '-3', '−3 mm was given; 0 mm or more is possible.'],
    ['Longest stop', '2000000', '2000000 mm was given; more than 0 mm to 1000000 mm is possible.'],
    ['Root gap at every joint', '11', '11 mm was given; 0 mm to 10 mm is possible.'],
    ['To move the stop', '601', '601 min was given; 0 to 600 is possible.'],
  ])('%s of %s is refused beside its field and not kept', async (label, typed, said) => {
    const app = open()
    const before = kept(app)
    await fill(label, typed)
    expect(screen.getByRole('alert').textContent).toBe(said)
    expect(kept(app)).toEqual(before)
  })

  test('an added saw is like the last, under a name and an id of its own', async () => {
    const app = open()
    fireEvent.click(screen.getByRole('button', { name: 'Add a saw' }))
    await act(async () => undefined)
    expect(kept(app).saws.map(({ id, name }) => [id, name])).toEqual([
      ['saw-1', 'Saw 1'],
      ['saw-2', 'Saw 2'],
    ])
  })

  test('a section with a price: 45.90 is kept as 4590 whole cents', async () => {
    const app = open()
    fireEvent.click(screen.getByRole('button', { name: 'Add a section' }))
    fireEvent.click(screen.getByRole('button', { name: /^Carry 40 × 40 × 3/ }))
    await act(async () => undefined)
    await fill('Price each, € (may be left out)', '45.9')
    const [carried] = kept(app).sections
    expect(carried?.section).toMatchObject({ kind: 'square-tube', width: 40, wall: 3 })
    expect(carried?.stock).toEqual([{ length: 6000, price: 4590 }])
  })

  test('a measured width alone stands for both of a square tube', async () => {
    const app = open()
    fireEvent.click(screen.getByRole('button', { name: 'Add a section' }))
    fireEvent.click(screen.getByRole('button', { name: /^Carry 40 × 40 × 3/ }))
    await act(async () => undefined)
    await fill('Width of this delivery, measured (may be left out)', '40.5')
    expect(kept(app).sections[0]?.measured).toEqual({ width: 40.5, height: 40.5 })
    await fill('Height of this delivery, measured (may be left out)', '40.2')
    expect(kept(app).sections[0]?.measured).toEqual({ width: 40.5, height: 40.2 })
    await fill('Width of this delivery, measured (may be left out)', '')
    expect(kept(app).sections[0]).not.toHaveProperty('measured')
  })

  test('a section is carried once only', async () => {
    open()
    for (const _ of [1, 2]) {
      fireEvent.click(screen.getByRole('button', { name: 'Add a section' }))
      const carry = screen.getByRole('button', { name: /^Carry 40 × 40 × 3 mm square tube$/ })
      if (_ === 2) {
        expect(carry.hasAttribute('disabled')).toBe(true)
        expect(screen.getByText('This section is carried already.')).toBeTruthy()
      }
      fireEvent.click(carry)
      await act(async () => undefined)
    }
  })

  test('what the door refuses is said and not kept', async () => {
    const app = open()
    app.actions.saveShop.mockResolvedValueOnce([
      { code: 'shop', text: 'Least to hold was given as 9000 mm.' },
    ] as never)
    await fill('Least to hold', '9000')
    expect(screen.getByRole('alert').textContent).toMatch(/9000 mm.*not kept/)
  })
})

describe('a backup', () => {
  const pick = (text: string) =>
    fireEvent.change(screen.getByLabelText('Open a backup or a job', { selector: 'input' }), {
      target: { files: [new File([text], 'all.json')] },
    })

  test('opened, says how many jobs came from it, and that another shop did not', async () => {
    vi.useRealTimers()
    const app = open()
    app.actions.openBackup.mockResolvedValueOnce({
      jobs: ['b1', 'b2'],
      ownShop: true,
      rivals: [],
      left: [],
      problems: [],
    })
    pick('{"a":1}')
    expect(await screen.findByText('2 jobs opened from all.json.')).toBeTruthy()
    expect(screen.getByText(/the shop on this device stays as it is/)).toBeTruthy()
    expect(app.actions.openBackup).toHaveBeenCalledWith('{"a":1}')
  })

  test('that cannot be read says why, with the name of the file', async () => {
    vi.useRealTimers()
    const app = open()
    const problems = [{ code: 'not-json', text: 'This is no backup: it is empty.' }]
    app.actions.openBackup.mockResolvedValueOnce({ jobs: [], ownShop: false, rivals: [], left: [], problems })
    pick('')
    expect(await screen.findByText('all.json: This is no backup: it is empty.')).toBeTruthy()
  })

  test('of a file that the device does not give out is said, and nothing is opened', async () => {
    vi.useRealTimers()
    const app = open()
    const file = new File(['x'], 'gone.json')
    file.arrayBuffer = () => Promise.reject(new DOMException('moved', 'NotReadableError'))
    fireEvent.change(screen.getByLabelText('Open a backup or a job', { selector: 'input' }), {
      target: { files: [file] },
    })
    expect(await screen.findByText(/gone\.json cannot be read/)).toBeTruthy()
    expect(app.actions.openBackup).not.toHaveBeenCalled()
  })
})

test('a free id is one that nobody has', () => {
  expect(freeId('saw', [{ id: 'saw-1' }])).toBe('saw-2')
  expect(freeId('saw', [{ id: 'saw-2' }])).toBe('saw-3')
  expect(freeId('saw', [])).toBe('saw-1')
})

test('within a section the summary tells its lengths', () => {
  const { store } = open('in')
  expect(
    within(screen.getByRole('heading', { name: 'Sections carried' }).parentElement!).getByText(/None yet/),
  ).toBeTruthy()
  expect(store.getState().shop.usualLengths).toHaveLength(2)
})

describe('what it costs, and what sheet there is', () => {
  const tube = { kind: 'square-tube', width: 50.8, height: 50.8, wall: 3.048, cornerRadius: 3.9624 } as const
  const carrying = () =>
    open('in', { sections: [{ section: tube, name: 'Two inch', stock: [{ length: 240 * 25.4 }] }] })

  test('$3.10 a foot is $62.00 for a stick of 20 ft, said beside the field', async () => {
    const app = carrying()
    await choose('per foot')
    await fill('Price per foot, $', '3.10')
    expect(kept(app).sections[0]!.rate).toEqual({ per: 'foot', cents: 310 })
    expect(screen.getByText(/^20 ft: \$62\.00\. Rounded to the nearest cent/)).toBeTruthy()
    await choose('per stick')
    expect(kept(app).sections[0]!.rate).toBeUndefined()
  })

  test('a sheet of 11 ga is 0.1196 in, and its greater side is its length', async () => {
    const app = open('in')
    fireEvent.click(screen.getByRole('button', { name: 'Add a sheet' }))
    await fill('Thickness', '11 ga')
    await fill('Sheet width', '120')
    await fill('Price each, $ (may be left out)', '64.50')
    // MH1453: 11 ga sheet is 0.1196 in.
    expect(kept(app).sheets).toEqual([
      { thickness: expect.closeTo(0.1196 * 25.4, 9), length: 120 * 25.4, width: 96 * 25.4, price: 6450 },
    ])
    fireEvent.click(screen.getByRole('button', { name: 'Take out sheet 1, 11 ga' }))
    await act(async () => undefined)
    expect(kept(app).sheets).toEqual([])
  })
})

test('the settings book is looked over: a record is taken out, and put back', async () => {
  const record = {
    process: 'wire, short-circuit',
    wall: 3,
    wire: '0.8',
    gas: '82/18',
    result: 'good',
  } as const
  const app = open('mm', {
    settings: [
      { ...record, joint: 'fillet', volts: 18, wireSpeed: 180 },
      { ...record, joint: 'top', volts: 17, wireSpeed: 170, process: 'flux-core wire' },
    ],
  })
  expect(screen.getByText(/2 records/)).toBeTruthy()
  expect(screen.getByText(/flux-core wire, 17 V, wire 0.8, 170 in\/min of wire/)).toBeTruthy()
  fireEvent.click(screen.getByRole('button', { name: 'Take out record 1' }))
  await act(async () => undefined)
  expect(kept(app).settings!.map(({ joint }) => joint)).toEqual(['top'])
  fireEvent.click(screen.getByRole('button', { name: 'Put it back' }))
  await act(async () => undefined)
  expect(kept(app).settings!.map(({ joint }) => joint)).toEqual(['top', 'fillet'])
})
