import { cleanup, fireEvent, render, screen } from '@testing-library/react'
import { afterEach, describe, expect, test, vi } from 'vitest'
import type { HandCut } from '../../../src/core/plan-shapes.ts'
import { ByHand } from '../../../src/ui/saw/by-hand.tsx'
import { sayTogether } from '../../../src/ui/saw/say.ts'
import { part } from '../../core/saw/sample.ts'
import { shop } from './bench-run.ts'

afterEach(cleanup)

// 40 · tan 60° = 69.28: to 1 mm 69 in from the end, 800 − 2 · 69.28 = 661 along.
const sharp = part({ mark: 'A', length: 800, ends: [60, 60] })
const piece = (id: string, more: Partial<HandCut> = {}): HandCut => ({
  left: {
    piece: id,
    mark: 'A',
    code: 'beyond-the-saw',
    why: 'A: a miter of 60° from square',
    ways: ['a wedge'],
  },
  product: { id, from: `${id}.b`, kind: 'piece', mark: 'A', makes: [id] },
  stick: 'S1',
  ...more,
})
const show = (pieces: readonly HandCut[], now: boolean) => {
  const onMade = vi.fn()
  render(<ByHand job="Gate" pieces={pieces} parts={[sharp]} shop={shop} now={now} onMade={onMade} />)
  return onMade
}

describe('pieces left to the hand', () => {
  test('while the saw is at work they are only told, with the reason once', () => {
    show([piece('A1'), piece('A2')], false)
    expect(screen.getByText(/A1, A2/).parentElement!.textContent).toBe('A1, A2: A miter of 60° from square')
    expect(screen.queryByRole('button')).toBeNull()
  })

  test('when the saw is done each is marked out, edge by edge, and checked off by its own key', () => {
    const onMade = show([piece('A1', { done: 'd:9' }), piece('A2')], true)
    const rows = screen.getAllByRole('row').map((row) => row.textContent)
    expect(rows).toEqual([
      'EdgeIn from the endThen along it',
      '169 mm661 mm',
      '20 mm800 mm',
      '30 mm800 mm',
      '469 mm661 mm',
    ])
    expect(screen.getAllByRole('button', { name: /is made/ })).toHaveLength(1)
    fireEvent.click(screen.getByRole('button', { name: 'A2 is made, of blank A2' }))
    expect(onMade).toHaveBeenCalledWith('A2')
  })

  test('all made: it says so; one without steel is not asked for', () => {
    show([piece('A1', { done: 'd:9' }), piece('A2', { lost: 'd:7' })], true)
    expect(screen.getByText('By hand: all made')).toBeTruthy()
  })
})

test('pieces of one stroke: a row of three or more is closed up, others are named', () => {
  expect(sayTogether(['A5', 'A6', 'A7', 'A8'])).toBe('A5–A8')
  expect(sayTogether(['A1', 'A8'])).toBe('A1, A8')
  expect(sayTogether(['A1', 'A3', 'A5'])).toBe('A1, A3, A5')
})
