import { cleanup, render, screen } from '@testing-library/react'
import { afterEach, describe, expect, test } from 'vitest'
import type { SetUp } from '../../../src/core/plan-shapes.ts'
import type { Saw } from '../../../src/core/shop.ts'
import { FigureNotes, Figures } from '../../../src/ui/saw/figures.tsx'
import { sayAngles } from '../../../src/ui/saw/say.ts'
import { SideView } from '../../../src/ui/saw/side-view.tsx'
import { squareSet } from './bench-run.ts'

afterEach(cleanup)

const saw = { id: 'saw-1', name: 'Saw', stopSide: 'left', readsAtSquare: 0 } as Saw
const set = (change: Partial<SetUp>, printed: Partial<SetUp['printed']>): SetUp => ({
  ...squareSet,
  swing: -14.3,
  ...change,
  printed: { ...squareSet.printed, miter: { deg: 14.3, text: '14.3°' }, ...printed },
})

const reading = { kind: 'mm', step: 1 } as const

const figureOf = (name: string) => document.querySelector(`[data-figure="${name}"]`)?.textContent ?? ''

describe('what is set for a compound end stands there in big figures', () => {
  test('bevel 8°, with the way the blade leans', () => {
    const setUp = set(
      { tilt: -8 },
      { bevel: { deg: 8, text: '8°' }, bevelLean: 'the top of the blade leans toward the stop' },
    )
    render(
      <>
        <Figures setUp={setUp} saw={saw} reading={reading} />
        <FigureNotes setUp={setUp} saw={saw} />
      </>,
    )
    expect(figureOf('bevel')).toContain('8')
    expect(screen.getByText('The top of the blade leans toward the stop.')).toBeTruthy()
    expect(sayAngles(setUp, saw)).toBe('miter 14.3°, bevel 8°')
  })

  test('turned 34.3° in the cradle, and the seam', () => {
    const setUp = set(
      { roll: 34.31 },
      { roll: 'top of the tube toward the fence by 34.3°', seam: 'weld seam up' },
    )
    render(
      <>
        <Figures setUp={setUp} saw={saw} reading={reading} />
        <FigureNotes setUp={setUp} saw={saw} />
      </>,
    )
    expect(figureOf('roll')).toContain('34.3')
    expect(screen.getByText('Weld seam up.')).toBeTruthy()
    expect(sayAngles(setUp, saw)).toBe('miter 14.3°, turned 34.3°')
  })

  test('a plain set-up has neither', () => {
    render(<Figures setUp={set({}, {})} saw={saw} reading={reading} />)
    expect(['bevel', 'roll', 'ramp'].map(figureOf)).toEqual(['', '', ''])
  })
})

describe('the view that the picture from above cannot give', () => {
  const turnOf = (container: HTMLElement) =>
    Number(/rotate\(([-\d.]+)\)/.exec(container.querySelector('g')?.getAttribute('transform') ?? '')?.[1])

  test('stop at the left, seen from it: the fence is at the left, and a top toward the fence turns the tube that way', () => {
    const { container } = render(<SideView setUp={set({ roll: 34.31 }, { roll: 'top of the tube' })} />)
    // Down the page is +y in a picture, so a turn to the left is negative.
    expect(turnOf(container)).toBeCloseTo(-34.31, 2)
    expect(screen.getByRole('img').getAttribute('aria-label')).toBe('Seen from the stop: top of the tube')
  })

  test('stop at the right: the fence is at the right, and so is the turn', () => {
    const { container } = render(
      <SideView setUp={set({ roll: 34.31, stopSide: 'right' }, { roll: 'top of the tube' })} />,
    )
    expect(turnOf(container)).toBeCloseTo(34.31, 2)
  })

  test('a wedge of 11.9° raises the end away from the stop: at the left the stop, at the right the rise', () => {
    const { container } = render(<SideView setUp={set({ ramp: 11.89 }, { ramp: 'raise it' })} />)
    const [low, high] = /M([\d.]+) [\d.]+L([\d.]+) /
      .exec(container.querySelector('.wedge')!.getAttribute('d')!)!
      .slice(1)
    expect(Number(high)).toBeGreaterThan(Number(low))
  })

  test('without bevel, roll or ramp there is none', () => {
    const { container } = render(<SideView setUp={set({}, {})} />)
    expect(container.innerHTML).toBe('')
  })
})
