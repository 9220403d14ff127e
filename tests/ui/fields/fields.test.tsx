import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { showAngle, showLength } from '../../../src/core/reading/show.ts'
import type { Reading } from '../../../src/core/shop.ts'
import { Count } from '../../../src/ui/fields/count.tsx'
import { fileName } from '../../../src/ui/fields/files.ts'
import { givenText, LengthField, MmField } from '../../../src/ui/fields/length-field.tsx'
import { AngleText, LengthText } from '../../../src/ui/fields/length-text.tsx'
import { readNumber } from '../../../src/ui/fields/number-field.tsx'
import { ofKind, readWall, SectionField } from '../../../src/ui/fields/section-field.tsx'

const sixteenths: Reading = { kind: 'inch-fraction', denominator: 16 }
const millimeters: Reading = { kind: 'mm', step: 1 }

beforeEach(() => vi.useFakeTimers())
afterEach(() => {
  cleanup()
  vi.useRealTimers()
})

const box = () => screen.getByRole('textbox') as HTMLInputElement
const type = (text: string) => fireEvent.change(box(), { target: { value: text } })
const waitABit = () => act(() => vi.advanceTimersByTime(1000))

describe('a length on the screen', () => {
  test('174.95 mm reads 6 7/8 in, the fraction typeset, and aloud as one text', () => {
    render(<LengthText of={showLength(174.95, sixteenths)} lies />)
    const fraction = document.querySelector('.fraction')
    expect([...(fraction?.children ?? [])].map((part) => part.textContent)).toEqual(['7', '8'])
    expect(document.querySelector('.heard')?.textContent).toBe('6 7/8')
    expect(document.querySelector('.unit')?.textContent).toBe(' in')
    // 174.95 mm is 6.888 in, 1/64 more than 6 7/8 (octagon of 18 in across corners, common practice).
    expect(document.querySelector('.lies')?.textContent).toBe(' strong')
  })
  test('404 mm has no fraction and its unit', () => {
    const { container } = render(<LengthText of={showLength(404.145, millimeters)} />)
    expect(container.textContent).toBe('404 mm')
  })
  test('25.714° shows the rise that a square can be set to', () => {
    const { container } = render(<AngleText of={showAngle(180 / 7, sixteenths)} rise />)
    expect(container.textContent).toBe('25.7° 5.779 in 12 in')
  })
})

describe('a length field', () => {
  const field = (onChange: (typed: string) => void = () => undefined, problem?: string) =>
    render(<LengthField label="Size" value="24" reading={sixteenths} onChange={onChange} problem={problem} />)

  test('echoes at once what it understood of 9-5/8', () => {
    field()
    type('9-5/8')
    expect(screen.getByText('9 5/8 in = 244.48 mm')).toBeTruthy()
  })

  test('keeps what is typed once the hand rests, as typed and once', () => {
    const onChange = vi.fn()
    field(onChange)
    type('26')
    type('26 - 5/8')
    expect(onChange).not.toHaveBeenCalled()
    waitABit()
    expect(onChange.mock.calls).toEqual([['26 - 5/8']])
  })

  test('Enter keeps it without waiting', () => {
    const onChange = vi.fn()
    field(onChange)
    type('30')
    fireEvent.keyDown(box(), { key: 'Enter' })
    expect(onChange.mock.calls).toEqual([['30']])
  })

  test('says where 7/0 is wrong, keeps nothing of it, and the old value stands again', () => {
    const onChange = vi.fn()
    field(onChange)
    type('7/0')
    expect(screen.getByRole('alert').textContent).toMatch(/7\/0.*cannot have 0 below/)
    waitABit()
    fireEvent.blur(box())
    expect(onChange).not.toHaveBeenCalled()
    expect(box().value).toBe('24')
    expect(screen.getByRole('alert').textContent).toContain('It stays 24.')
  })

  test.each(['', '1 1/2 3', 'abc', 'NaN'])('%j is never kept', (text) => {
    const onChange = vi.fn()
    field(onChange)
    type(text)
    waitABit()
    fireEvent.blur(box())
    expect(onChange).not.toHaveBeenCalled()
    expect(box().value).toBe('24')
  })

  test('Escape gives the old value back', () => {
    const onChange = vi.fn()
    field(onChange)
    type('99')
    fireEvent.keyDown(box(), { key: 'Escape' })
    waitABit()
    expect(box().value).toBe('24')
    expect(onChange).not.toHaveBeenCalled()
  })

  test('a problem of the plan stands beside it and is tied to it', () => {
    field(() => undefined, 'It must be more than 4 in.')
    expect(box().getAttribute('aria-invalid')).toBe('true')
    const described = document.getElementById(box().getAttribute('aria-describedby') ?? '')
    expect(described?.textContent).toBe('It must be more than 4 in.')
  })

  test('its keypad types 9, space, 5, fraction bar, 8 and takes back', () => {
    field()
    type('')
    fireEvent.click(screen.getByRole('button', { name: 'Keypad for Size' }))
    const pad = within(screen.getByRole('group', { name: 'Keypad' }))
    for (const key of ['9', 'space', '5', 'fraction bar', '8', '8', 'take back one'])
      fireEvent.click(pad.getByRole('button', { name: key }))
    expect(box().value).toBe('9 5/8')
    expect(pad.getByText('9 5/8 in = 244.48 mm')).toBeTruthy()
  })

  test('the keypad has feet and inches in an inch shop, mm in a metric one', () => {
    const { unmount } = field()
    fireEvent.click(screen.getByRole('button', { name: 'Keypad for Size' }))
    expect(screen.getByRole('button', { name: 'feet' }).textContent).toBe('′')
    unmount()
    render(<LengthField label="Size" value={700} reading={millimeters} onChange={() => undefined} />)
    fireEvent.click(screen.getByRole('button', { name: 'Keypad for Size' }))
    expect(screen.getByRole('button', { name: 'mm' })).toBeTruthy()
  })

  test('a figure of the shop is kept in millimeters: 3/32 in is 2.38125 mm', () => {
    const onChange = vi.fn()
    render(<MmField label="Kerf" value={2.5} reading={sixteenths} onChange={onChange} />)
    // 2.5 mm is no sixteenth: its own number is shown, not a rounded one.
    expect(box().value).toBe('0.098425')
    type('3/32')
    waitABit()
    expect(onChange).toHaveBeenCalledTimes(1)
    expect(onChange.mock.calls[0]?.[0]).toBeCloseTo(2.38125, 9)
  })
})

test('a given length is shown as typed, a number in the shop’s reading where that is exact', () => {
  expect(givenText('9-5/8', sixteenths)).toBe('9-5/8')
  expect(givenText(50.8, sixteenths)).toBe('2')
  expect(givenText(404, millimeters)).toBe('404')
  expect(givenText(404.25, millimeters)).toBe('404.25')
  expect(givenText(404.5, millimeters)).toBe('404.5')
  // A point left of the origin of a frame from points, 100 mm and 4 in: it read “NaN”.
  expect(givenText(-100, millimeters)).toBe('−100')
  expect(givenText(-0.5, millimeters)).toBe('−0.5')
  expect(givenText(-101.6, sixteenths)).toBe('−4')
  // A sixty-fourth in a shop that reads sixteenths.
  expect(givenText(25.4 / 64, sixteenths)).toBe('1/64')
})

test('a number is said in the units in which its field reads it back: 900 mm in an inch shop is 900', () => {
  expect(givenText(900, sixteenths, 'mm')).toBe('900')
  expect(givenText(50.8, millimeters, 'in')).toBe('2')
  const change = vi.fn()
  render(<LengthField label="Size" value={900} reading={sixteenths} units="mm" onChange={change} />)
  expect(box().value).toBe('900')
  type('901')
  expect(screen.getByText(/^901 mm/)).toBeTruthy()
})

test('a press beside the keypad goes through before the keypad is taken away from under the finger', () => {
  const pressed = vi.fn()
  render(
    <>
      <LengthField label="Size" value="24" reading={sixteenths} onChange={() => undefined} />
      <button type="button" onClick={pressed}>
        Keep it
      </button>
    </>,
  )
  const pad = () => screen.queryByRole('group', { name: 'Keypad' })
  fireEvent.click(screen.getByRole('button', { name: 'Keypad for Size' }))
  expect(pad()).toBeTruthy()
  const key = screen.getByRole('button', { name: 'Keep it' })
  fireEvent.pointerDown(key)
  fireEvent.blur(box())
  expect(pad()).toBeTruthy()
  fireEvent.click(key)
  expect(pressed).toHaveBeenCalledTimes(1)
  expect(pad()).toBeNull()
  // With the keyboard there is no press to wait for.
  fireEvent.click(screen.getByRole('button', { name: 'Keypad for Size' }))
  fireEvent.blur(box())
  expect(pad()).toBeNull()
})

describe('a count', () => {
  test('2.5 is refused, 17 of at most 16 too; both say what is possible', () => {
    const onChange = vi.fn()
    render(<Count label="Sides" value={6} least={3} most={16} onChange={onChange} />)
    type('2.5')
    expect(screen.getByRole('alert').textContent).toMatch(/2\.5/)
    type('17')
    expect(screen.getByRole('alert').textContent).toBe('17 was given; 3 to 16 is possible.')
    type('8')
    waitABit()
    expect(onChange.mock.calls).toEqual([[8]])
  })
  test('at its least there is no less', () => {
    render(<Count label="Sides" value={3} least={3} most={16} onChange={() => undefined} />)
    expect(screen.getByRole('button', { name: 'Sides: one less' }).hasAttribute('disabled')).toBe(true)
    expect(screen.getByRole('button', { name: 'Sides: one more' }).hasAttribute('disabled')).toBe(false)
  })
})

describe('a section', () => {
  test('16 ga of a tube is 0.065 in; “16 gage” is not understood', () => {
    const tube = { kind: 'square-tube', width: '1', wall: '1/8' } as const
    // Birmingham wire gauge 16 = 0.065 in, as tube walls are listed (shared/reference/gauges.json).
    expect(readWall('16 ga', tube, 'in')).toMatchObject({ ok: true, value: '16 ga = 0.065 in = 1.651 mm' })
    expect(readWall('16 gage', tube, 'in').ok).toBe(false)
  })
  test('turned into a flat bar it has a height and no wall; turned back it has a wall again', () => {
    const bar = ofKind({ kind: 'square-tube', width: 40, wall: 3 }, 'flat-bar')
    expect(bar).toEqual({ kind: 'flat-bar', width: 40, height: 40 })
    expect(ofKind(bar, 'square-tube')).toEqual({ kind: 'square-tube', width: 40, wall: '1/8 in' })
  })
  test('a wall of half the width is refused beside the field', () => {
    render(
      <SectionField
        label="Tube"
        value={{ kind: 'square-tube', width: 40, wall: 20 }}
        carried={[]}
        reading={millimeters}
        onChange={() => undefined}
      />,
    )
    expect(screen.getByRole('alert').textContent).toMatch(/20 mm.*less than/)
  })
})

test('a number says what is possible', () => {
  expect(readNumber('12,5', 0, 89, '°')).toEqual({ ok: true, value: 12.5 })
  expect(readNumber('95', 0, 89, '°')).toMatchObject({
    problems: [{ text: '95° was given; 0 to 89 is possible.' }],
  })
  expect(readNumber('', 0, 89, '°').ok).toBe(false)
  expect(readNumber('22 1/2', 0, 89, '°')).toEqual({ ok: true, value: 22.5 })
  expect(readNumber('2.5', 0, 9, '', true)).toMatchObject({
    problems: [{ text: '2.5 was given; a whole number is possible.' }],
  })
})

test('a job’s name makes a file name that any system takes', () => {
  expect(fileName('Café table: 24" / upper floor', 'tube-job.json')).toBe(
    'Cafe-table-24-upper-floor.tube-job.json',
  )
  expect(fileName('../..', 'json')).toBe('job.json')
})
