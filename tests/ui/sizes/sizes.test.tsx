import { act, cleanup, fireEvent, screen, within } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import type { Params } from '../../../src/core/job.ts'
import { landingLines } from '../../../src/core/parts/landing-lines.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { useApp } from '../../../src/ui/app.ts'
import { Sizes } from '../../../src/ui/sizes/sizes.tsx'
import { fakeApp, jobOf, show, viewOf } from '../shell/fake-app.tsx'

beforeEach(() => vi.useFakeTimers())
afterEach(() => {
  cleanup()
  vi.useRealTimers()
})

function Shown() {
  const view = useApp((state) => state.views['job-1'])
  return view ? <Sizes view={view} /> : null
}

function open(kind: string, params: Params = {}, units: 'in' | 'mm' = 'mm', quantity = 1) {
  const app = fakeApp([{ ...jobOf(kind, params, units), quantity }], startShop(units))
  show(app, <Shown />)
  return app
}

const fill = (label: RegExp | string, text: string) => {
  const field = screen.getByRole('textbox', { name: label })
  fireEvent.change(field, { target: { value: text } })
  act(() => vi.advanceTimersByTime(600))
}

/** The parts table, row by row, cells as read; screen-reader doubles of fractions left out. */
const table = () =>
  [...document.querySelectorAll('table.parts tbody tr')].map((row) =>
    [...row.children].map((cell) => {
      const copy = cell.cloneNode(true) as HTMLElement
      for (const seen of copy.querySelectorAll('.digits')) seen.remove()
      return copy.textContent?.trim()
    }),
  )

describe('the parts table', () => {
  test('hexagon, 700 across flats, 40 tube, read to 1 mm: six of 404, 30°, ends opposed', () => {
    open('polygon-frame', { size: 700 })
    const [row] = table()
    expect(row?.slice(0, 1)).toEqual(['A'])
    expect(row?.[2]).toBe('6')
    // 700 tan 30° = 404.145; short 404.145 − 2 · 40 tan 30° = 357.957
    expect(row?.[3]).toBe('404 mm strong (+0.1)')
    expect(row?.[4]).toBe('358 mm')
    expect(row?.[5]).toBe('30°')
    expect(row?.[6]).toBe('ends opposed')
  })

  test('octagon, 18 in across corners, 1 in tube: 6 7/8 strong (+1/64), 22½°, eight pieces', () => {
    // Long point 18 sin 22.5° = 6.888 in; 6 7/8 and 22½° are common practice.
    open(
      'polygon-frame',
      {
        sides: 8,
        sizeKind: 'across corners',
        size: '18',
        section: { kind: 'square-tube', width: '1', wall: '16 ga' },
      },
      'in',
    )
    const [row] = table()
    expect(row?.[2]).toBe('8')
    expect(row?.[3]).toBe('6 7/8 in strong (+1/64)')
    expect(row?.[5]).toBe('22½°')
  })

  test('three of the same: 18 pieces, 6 × 3', () => {
    open('polygon-frame', { size: 700 }, 'mm', 3)
    expect(table()[0]?.[2]).toBe('18 6 × 3')
  })

  test('says what is built from the rounded lengths: 699.75 for 700 asked', () => {
    open('polygon-frame', { size: 700 })
    // 404 / tan 30° = 699.748
    expect(screen.getByText('699.75 mm, 0.25 less')).toBeTruthy()
  })
})

describe('parts and drawing', () => {
  const chosenShapes = () => document.querySelectorAll('.shape.chosen').length
  const markKey = () => screen.getByRole('button', { name: 'A, show it on the drawing' })

  test('choosing the row shows its six members twice, in plan and elevation; again lets go', () => {
    open('polygon-frame')
    expect(chosenShapes()).toBe(0)
    fireEvent.click(markKey())
    expect(chosenShapes()).toBe(12)
    expect(markKey().getAttribute('aria-pressed')).toBe('true')
    fireEvent.click(markKey())
    expect(chosenShapes()).toBe(0)
  })

  test('a tap on a member chooses its row', () => {
    open('polygon-frame')
    fireEvent.click(document.querySelector('.shape.member')!)
    expect(document.querySelectorAll('table.parts tr.chosen')).toHaveLength(1)
  })

  test('a tap on the dimension of 700 leads to the field of the size', () => {
    open('polygon-frame', { size: 700 })
    fireEvent.click(screen.getByRole('button', { name: /across flats, change it/ }))
    expect(document.activeElement).toBe(screen.getByRole('textbox', { name: 'Size' }))
  })

  test('turned round it can be turned with keys and set to front, side and above', async () => {
    vi.useRealTimers()
    open('polygon-frame')
    fireEvent.click(screen.getByRole('button', { name: 'Turn it round' }))
    fireEvent.click(await screen.findByRole('button', { name: 'Front' }))
    expect(screen.getByRole('img', { name: /from 0° round and 0° above/ })).toBeTruthy()
    fireEvent.click(screen.getByRole('button', { name: 'Turn left' }))
    fireEvent.click(screen.getByRole('button', { name: /more from above/ }))
    expect(screen.getByRole('img', { name: /from 15° round and 15° above/ })).toBeTruthy()
  })
})

describe('plates', () => {
  const opened = () => {
    open('polygon-frame', { sides: 8, size: '26', top: 'plate', topThickness: '1/4' }, 'in')
    const details = document.querySelector<HTMLDetailsElement>('details.plate')!
    act(() => {
      details.open = true
      fireEvent(details, new Event('toggle'))
    })
    return details
  }

  test('an octagon 26 in across flats: corners 7 5/8 in from the corners of its square (common practice)', () => {
    const details = opened()
    const rows = [...details.querySelectorAll('tbody tr')].map((row) => row.textContent)
    expect(rows).toHaveLength(8)
    expect(details.textContent).toContain('Check before cutting')
    expect(rows.filter((row) => row?.includes('7 5/8'))).toHaveLength(4)
  })

  test('guide 1/2 in, kerf 1/16: 15/32 inside the edge, or 17/32 outside it; eight straight edges are drawn', () => {
    const details = opened()
    const lines = () => details.querySelectorAll('.guide-line').length
    expect(lines()).toBe(0)
    fireEvent.click(screen.getByRole('radio', { name: /on the part/ }))
    expect(lines()).toBe(8)
    expect(screen.getByText(/inside the edge of the part/).textContent).toContain('15/32 in')
    fireEvent.click(screen.getByRole('radio', { name: /on the waste/ }))
    expect(screen.getByText(/outside the edge of the part/).textContent).toContain('17/32 in')
  })

  test('DXF, SVG of the plate and the drawing of the frame are handed over as files', async () => {
    opened()
    const blobs: Blob[] = []
    const make = vi.spyOn(URL, 'createObjectURL').mockImplementation((blob) => {
      blobs.push(blob as Blob)
      return 'blob:x'
    })
    for (const name of [/Save as DXF, in inches/, /Save as SVG, full size/, /Save the drawing/])
      fireEvent.click(screen.getByRole('button', { name }))
    make.mockRestore()
    vi.useRealTimers()
    const [dxf, svg, drawing] = await Promise.all(blobs.map((blob) => blob.text()))
    expect(dxf).toMatch(/\$INSUNITS\r\n70\r\n1\r\n/)
    expect(svg).toContain('id="part"')
    // Eight sides and the plate, in three views; from above the plate is dashed.
    expect([...drawing!.matchAll(/stroke-width="0.5"/g)]).toHaveLength(26)
    expect(drawing).toContain('from the right')
  })
})

describe('a size that cannot be built', () => {
  test('says beside its field what is possible; the last good plan stays, marked as older', () => {
    open('polygon-frame', { size: 700 })
    fill('Size', '60')
    expect(screen.getByRole('alert').textContent).toMatch(/60 mm.*must be more than 80 mm/)
    expect(screen.getByText(/are the last that worked/)).toBeTruthy()
    expect(table()[0]?.[3]).toBe('404 mm strong (+0.1)')
    fill('Size', '692.82')
    expect(screen.queryByText(/are the last that worked/)).toBeNull()
    expect(table()[0]?.[3]).toBe('400 mm')
  })

  test('two sides are refused in the field itself, and never reach the job', () => {
    const { actions } = open('polygon-frame')
    fill('Sides', '2')
    expect(screen.getByRole('alert').textContent).toBe('2 was given; 3 to 16 is possible.')
    expect(actions.editParams).not.toHaveBeenCalled()
  })

  test('from the start, there is no drawing but the fields and the reason', () => {
    open('polygon-frame', { size: 10 })
    expect(screen.getByText(/no drawing until the sizes can be built/)).toBeTruthy()
    expect(screen.getByRole('textbox', { name: 'Size' })).toBeTruthy()
    expect(screen.getByRole('alert').textContent).toMatch(/10 mm/)
  })

  test('a problem that belongs to no field is said above them', () => {
    const job = jobOf('polygon-frame')
    const shop = startShop('mm')
    const view = {
      ...viewOf(job, shop),
      problems: [
        { code: 'longer-than-any-stick', text: 'Part A is longer than any stick.', field: 'build.params' },
      ],
    }
    show(fakeApp([job], shop, { views: { [job.id]: view } }), <Shown />)
    expect(within(screen.getByRole('alert')).getByText('Part A is longer than any stick.')).toBeTruthy()
  })
})

describe('what is asked for', () => {
  test('follows what was chosen: a plate asks for its thickness, nothing on top does not', () => {
    open('polygon-frame')
    expect(screen.queryByRole('textbox', { name: 'Thickness' })).toBeNull()
    fireEvent.change(screen.getByRole('combobox', { name: 'On top' }), { target: { value: 'plate' } })
    expect(screen.getByRole('textbox', { name: 'Thickness' })).toBeTruthy()
  })

  test('the name and the quantity are the job’s', () => {
    const { actions } = open('polygon-frame')
    fill('Name of the job', 'Porch table')
    fill('How many', '3')
    expect(actions.editJob.mock.calls).toEqual([
      ['job-1', { name: 'Porch table' }],
      ['job-1', { quantity: 3 }],
    ])
  })

  test('an empty name is refused', () => {
    const { actions } = open('polygon-frame')
    fill('Name of the job', ' ')
    expect(screen.getByRole('alert').textContent).toMatch(/needs a name/)
    expect(actions.editJob).not.toHaveBeenCalled()
  })
})

describe('a cut list', () => {
  test('takes a row more like the last, and gives each part its mark', () => {
    const { store } = open('cut-list', { rows: [{ count: 4, length: 600, a: 45, b: 45 }] })
    fireEvent.click(screen.getByRole('button', { name: 'Add a row' }))
    const lengths = screen.getAllByRole('textbox', { name: 'Length' })
    fireEvent.change(lengths[1]!, { target: { value: '450' } })
    act(() => vi.advanceTimersByTime(600))
    expect(store.getState().jobs[0]?.build.params.rows).toEqual([
      { count: 4, length: 600, a: 45, b: 45 },
      { count: 4, length: '450', a: 45, b: 45 },
    ])
    expect(table().map((row) => [row[0], row[2], row[3]])).toEqual([
      ['A', '4', '600 mm'],
      ['B', '4', '450 mm'],
    ])
  })

  test('a pasted list is shown as understood before any of it is taken; what is not stays in the box', () => {
    const { actions, store } = open('cut-list')
    const box = screen.getByRole<HTMLTextAreaElement>('textbox', { name: /One piece per line/ })
    fireEvent.change(box, {
      target: { value: 'Qty;Cut length (mm);Angle A;Who\n4;600;45;Ann\n2;7/0;0;Ben\n3;250,5;;' },
    })
    const seen = screen.getByRole('region', { name: 'What was understood' })
    expect(seen.querySelector('[role=status]')?.textContent).toBe(
      '2 rows understood: 7 pieces, 3152 mm in all. 1 line is not, and will stay in the box to be put right:',
    )
    expect(screen.getByRole('alert').textContent).toMatch(/^Line 3, length: /)
    expect(seen.textContent).toContain('no such column is known here: Who.')
    expect([...seen.querySelectorAll('tbody tr')].map((row) => row.textContent)).toEqual([
      '24600 mm45°',
      '43251 mm scant (−0.5)0°',
    ])
    expect(actions.editParams).not.toHaveBeenCalled()
    fireEvent.click(screen.getByRole('button', { name: 'Replace all rows with these 2' }))
    expect(store.getState().jobs[0]?.build.params.rows).toEqual([
      { count: 4, length: '600 mm', a: 45, b: 0 },
      { count: 3, length: '250,5 mm', a: 0, b: 0 },
    ])
    expect(box.value).toBe('Qty;Cut length (mm);Angle A;Who\n2;7/0;0;Ben')
  })

  test('a pasted list replaces the rows', () => {
    open('cut-list')
    fireEvent.change(screen.getByRole('textbox', { name: /One piece per line/ }), {
      target: { value: '15\t404\t30\t30\n2\t1000' },
    })
    fireEvent.click(screen.getByRole('button', { name: 'Replace all rows with these 2' }))
    expect(table().map((row) => [row[2], row[3], row[6]])).toEqual([
      ['2', '1000 mm', 'square'],
      ['15', '404 mm', 'ends opposed'],
    ])
  })
})

describe('layout marks', () => {
  test('of a pedestal: the post lands on the cross bar, both edges from one end, half a post each side of the middle', () => {
    const plan = viewOf(jobOf('pedestal', { bars: 'two, crossing' }), startShop('mm')).plan!
    const line = landingLines(plan).find(
      ({ landing }) => landing.by === 'base/post' && landing.on === 'base/bar-1',
    )!
    const bar = plan.parts.find(({ members }) => members.includes('base/bar-1'))!
    // An 80 post in the middle of the bar.
    expect(line.landing.near).toBeCloseTo(bar.longPoint / 2 - 40, 6)
    expect(line.landing.far).toBeCloseTo(bar.longPoint / 2 + 40, 6)
    expect(line.on).toMatch(/^[A-Z]+, Cross bar$/)
  })
})

test('four feet, four caps of one mark: one line with how many, and the mass of each', () => {
  open('pedestal')
  const lines = [...document.querySelectorAll('.plain-list li')].map((line) => line.textContent)
  const caps = lines.filter((line) => line?.includes('Foot cap'))
  expect(caps).toHaveLength(1)
  expect(caps[0]).toMatch(/^P14 × Foot cap: .* kg eachDrawing$/)
})
