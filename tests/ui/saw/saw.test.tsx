import { act, fireEvent, screen, waitFor, within } from '@testing-library/react'
import { describe, expect, test, vi } from 'vitest'
import type { Wrong } from '../../../src/app/state.ts'
import type { Joint } from '../../../src/core/frame/frame.ts'
import type { HandCut, Plan } from '../../../src/core/plan-shapes.ts'
import { Saw } from '../../../src/ui/saw/saw.tsx'
import { cutsWith, nest, plan, shop } from './bench-run.ts'
import { fakeApp, noProgress, viewWith } from './fake-app.tsx'

/** Of two pieces that meet, not a list of pieces. */
const corner: Joint = {
  id: 'corner-1',
  kind: 'miter',
  members: ['A1', 'A2'],
  at: [0, 0, 0],
  ends: ['B', 'A'],
}
const joined: Plan = { ...plan, frame: { ...plan.frame, joints: [corner] } }

const open = (...given: Parameters<typeof fakeApp>) => {
  const app = fakeApp(...given)
  app.put((view) => <Saw view={view} />)
  return app
}
const main = (name: RegExp | string) => screen.getByRole('button', { name })
const offered = (name: string) => screen.findByRole('button', { name }, { timeout: 3000 })

describe('a saw that cannot make every cut', () => {
  test('says what it cannot do and where to change it, not that the sticks are still to be worked out', () => {
    const text = 'F: 50 mm would be in the vise; Saw 1 must hold at least 60 mm.'
    const { run: _run, ...without } = plan
    open(viewWith({ plan: { ...without, hindered: [{ code: 'too-short-to-hold', text }] }, cuts: [] }))
    expect(screen.getByRole('heading').textContent).toBe('The saw cannot make every cut of this job')
    expect(screen.getByText(text)).toBeTruthy()
    expect(screen.queryByRole('button', { name: 'Work it out' })).toBeNull()
    expect(screen.getByRole('link', { name: 'Go to Shop' }).getAttribute('href')).toBe('#/shop')
  })
})

describe('one set-up at a time', () => {
  test('shows the stop and the angle to set, the stick with its length, the clean-up and which piece', () => {
    open(viewWith())
    expect(document.querySelector('[data-figure="stop"]')!.textContent).toBe('404 mm')
    expect(document.querySelector('[data-figure="angle"]')!.textContent).toContain('0')
    expect(document.querySelector('.in-hand-piece')!.textContent).toContain('A1 blank')
    expect(document.querySelector('.in-hand-stick')!.textContent).toBe('from length S1, 6000 mm')
    const steps = [...document.querySelectorAll('.bench-steps li')].map((step) => step.textContent)
    expect(steps[0]).toBe('Load length S1.')
    expect(steps[1]).toBe('Clean-up cut first: take 10 mm off the mill end, kerf included.')
    expect(main('Cut A1 blank')).toBeTruthy()
    expect(screen.getByText('First piece check.').parentElement!.textContent).toContain(
      'measure blank A1: 404 mm',
    )
  })

  test('counts in this set-up and in all, and the list says each state in words', async () => {
    open(viewWith({ cuts: cutsWith(['A1.b']) }))
    expect(screen.getByRole('status').textContent).toBe('1 of 2 in this set-up, 1 of 6 in all')
    const list = screen.getByRole('navigation', { name: 'Set-ups' })
    const lines = within(list).getAllByRole('button')
    expect(lines[0]!.textContent).toContain('1 · square')
    expect(lines[0]!.textContent).toContain('on now: 1 cut, 1 to go')
    expect(lines[0]!.getAttribute('aria-current')).toBe('step')
    expect(lines[1]!.textContent).toContain('2 · miter 30°')
    expect(lines[1]!.textContent).toContain('4 to go')
  })

  test('a saw that reads 90 at square shows 60 for 30 degrees from square and says so', () => {
    const saw = { ...shop.saws[0]!, readsAtSquare: 90 as const }
    const cuts = cutsWith(['A1.b', 'A2.b']).map((cut) =>
      cut.setUp.swing === 0
        ? cut
        : {
            ...cut,
            setUp: {
              ...cut.setUp,
              printed: { ...cut.setUp.printed, miter: { deg: 60, text: '60°' } },
            },
          },
    )
    open(viewWith({ cuts }), { shop: { ...shop, saws: [saw] } })
    expect(screen.getByText('Miter on the scale (square is 90)')).toBeTruthy()
    expect(document.querySelector('[data-figure="angle"]')!.textContent).toContain('60')
    expect(screen.getByRole('navigation', { name: 'Set-ups' }).textContent).toContain('miter scale at 60°')
  })

  test('the picture names the side of the stop, the distance and the lean for a screen reader', () => {
    open(viewWith({ cuts: cutsWith(['A1.b', 'A2.b']) }))
    const picture = screen.getByRole('img')
    expect(picture.getAttribute('aria-label')).toBe(
      'From above: A1, first end against the fence, stop at the left, 404 mm from the teeth; ' +
        'the end of the blade away from the fence leans toward the stop; long side against the fence',
    )
    expect(picture.textContent).toContain('you stand here')
    expect(picture.textContent).toContain('stop')
    expect(picture.textContent).toContain('vise')
  })

  test('in the picture the stop stands left for a stop at the left and right for one at the right', () => {
    const plateAt = () => Number(document.querySelector('.saw-picture .plate')!.getAttribute('x'))
    const first = open(viewWith({ cuts: cutsWith(['A1.b', 'A2.b']) }))
    const left = plateAt()
    first.store.getState()
    document.body.innerHTML = ''
    open(
      viewWith({
        cuts: cutsWith(['A1.b', 'A2.b']).map((cut) => ({
          ...cut,
          setUp: { ...cut.setUp, stopSide: 'right' as const },
        })),
      }),
    )
    expect(left).toBeLessThan(410)
    expect(plateAt()).toBeGreaterThan(410)
    expect(document.querySelector('.other-side')!.textContent).toContain(
      'The stop moves to the right of the blade',
    )
  })

  test('the turn-over is a step of its own before the second end', () => {
    open(viewWith({ cuts: cutsWith(['A1.b', 'A2.b', 'A1.m']) }))
    const turn = document.querySelector('.bench-steps [data-step="turn"]')!
    expect(turn.textContent).toMatch(
      /^Turn the piece over, end for end: the same edge stays against the fence/,
    )
    expect(main('Cut A1 second end')).toBeTruthy()
    expect(document.querySelector('.in-hand-stick')!.textContent).toContain('A1, first end cut')
  })

  test('the main button stands at the thumb side that the shop chose', () => {
    open(viewWith(), { shop: { ...shop, hand: 'left' } })
    expect(document.querySelector('.cut-bar')!.className).toContain('hand-left')
  })
})

describe('checking off', () => {
  test('is done only once it is on disk: until then busy, nothing counted, no second cut', async () => {
    const app = open(viewWith())
    app.control.slow = true
    const button = main('Cut A1 blank')
    fireEvent.click(button)
    fireEvent.click(button)
    expect(button.getAttribute('aria-busy')).toBe('true')
    expect(screen.getByRole('status').textContent).toContain('0 of 6 in all')
    expect(document.querySelector('.saw-flash')).toBeNull()
    await app.release()
    expect(app.actions.cut).toHaveBeenCalledTimes(1)
    await waitFor(() => expect(screen.getByRole('status').textContent).toContain('1 of 6 in all'))
    expect(document.querySelector('.saw-flash')!.getAttribute('data-flash')).toBe('1')
  })

  test('after it the button says what was cut for a moment, so a bouncing tap cuts no second piece', async () => {
    const app = open(viewWith())
    fireEvent.click(main('Cut A1 blank'))
    const said = await screen.findByRole('button', { name: 'A1 blank is cut' })
    fireEvent.click(said)
    expect(app.actions.cut).toHaveBeenCalledTimes(1)
    fireEvent.click(await offered('Cut A2 blank'))
    await waitFor(() => expect(app.actions.cut).toHaveBeenCalledTimes(2))
  })

  test('a failed save counts nothing and leaves the same piece to cut', async () => {
    const app = open(viewWith())
    app.control.fails = true
    fireEvent.click(main('Cut A1 blank'))
    await waitFor(() => expect(app.store.getState().trouble).toBe('The disk is full.'))
    await waitFor(() => expect(main('Cut A1 blank').getAttribute('aria-busy')).toBe('false'))
    expect(screen.getByRole('status').textContent).toContain('0 of 6 in all')
    expect(document.querySelector('.saw-flash')).toBeNull()
  })

  test('the focus stays on the main button from piece to piece, and a key held down is one press', async () => {
    open(viewWith())
    const button = main('Cut A1 blank')
    button.focus()
    fireEvent.click(button)
    expect(document.activeElement).toBe(await offered('Cut A2 blank'))
    expect(fireEvent.keyDown(button, { key: 'Enter', repeat: true })).toBe(false)
    expect(fireEvent.keyDown(button, { key: 'Enter' })).toBe(true)
  })

  test('what another tab cut shows up, and the next piece is offered', async () => {
    const app = open(viewWith())
    await app.otherTab('A1.b')
    expect(main('Cut A2 blank')).toBeTruthy()
    expect(screen.getByRole('status').textContent).toContain('1 of 6 in all')
  })

  test('undo takes the last one back; with nothing done it cannot be pressed', async () => {
    const app = open(viewWith())
    expect((main('Undo') as HTMLButtonElement).disabled).toBe(true)
    await app.otherTab('A1.b')
    fireEvent.click(main('Undo'))
    expect(app.actions.undo).toHaveBeenCalledWith('job-1', false)
    await waitFor(() => expect(main('Cut A1 blank')).toBeTruthy())
  })

  test('the first piece of a set-up is to be measured before the rest', async () => {
    const app = open(viewWith())
    await app.otherTab('A1.b')
    const check = document.querySelector('.first-piece')!
    expect(check.getAttribute('data-check')).toBe('measure')
    expect(check.textContent).toContain('Measure blank A1: 404 mm.')
    expect(check.textContent).toContain(
      'Along the edge that lay at the fence, from square end to square end.',
    )
  })
})

describe('from one set-up to the next', () => {
  const atSquare = (done: readonly string[]) => {
    const app = fakeApp(viewWith({ cuts: cutsWith(done) }))
    app.put((view) => <Saw view={view} at="set-1" />)
    return app
  }

  test('when a set-up is cut the main button leads to the next and never cuts with the old setting', () => {
    const app = atSquare(['A1.b', 'A2.b'])
    expect(screen.queryByRole('button', { name: /^Cut/ })).toBeNull()
    const next = main('Go to set-up 2 miter 30°, stop 404 mm')
    fireEvent.click(next)
    expect(location.hash).toBe('#/job/job-1/saw/set-2')
    expect(app.actions.cut).not.toHaveBeenCalled()
  })

  test('without a set-up in the address it does not slide into the next one by itself when this one is cut', async () => {
    const app = open(viewWith({ cuts: cutsWith(['A1.b']) }))
    await app.otherTab('A2.b')
    expect(screen.queryByRole('button', { name: /^Cut/ })).toBeNull()
    expect(screen.getByRole('status').textContent).toBe('2 of 2 in this set-up, 2 of 6 in all')
    expect(main('Go to set-up 2 miter 30°, stop 404 mm')).toBeTruthy()
  })

  test('the next set-up is previewed with its stop', () => {
    atSquare([])
    expect(document.querySelector('.next-set-up')!.textContent).toBe(
      'Next set-up: 2 · miter 30°, stop 404 mm, A, first end; A, second end, 4 cuts',
    )
  })

  test('a set-up whose blanks are not cut yet says which is missing', () => {
    const app = fakeApp(viewWith())
    app.put((view) => <Saw view={view} at="set-2" />)
    expect(screen.getByText('Nothing to cut here yet: A1.b is not cut.')).toBeTruthy()
    expect(main('Go to set-up 1 square, stop 404 mm')).toBeTruthy()
  })

  test('a finished stick offers its drop with the length, to keep or to scrap', async () => {
    const app = open(viewWith({ cuts: cutsWith(['A1.b', 'A2.b']) }))
    const left = screen.getByRole('region', { name: 'What is left of length S1' })
    expect(left.textContent).toContain('Left of it: 5177 mm')
    fireEvent.click(within(left).getByRole('button', { name: /^Keep the offcut, paint [A-Z0-9]{3}$/ }))
    expect(app.actions.keepDrop).toHaveBeenCalledWith('job-1', 'S1', 5177)
    fireEvent.click(within(left).getByRole('button', { name: 'It is scrap' }))
    expect(app.actions.scrap).toHaveBeenCalledWith('job-1', 'S1')
  })

  test('a drop that is on the rack already is not offered again', () => {
    open(viewWith({ cuts: cutsWith(['A1.b', 'A2.b']) }), {
      progress: { ...noProgress, kept: ['nest-1/S1'] },
    })
    expect(screen.queryByRole('region', { name: /left of length/ })).toBeNull()
  })

  test('a drop that was called scrap is not offered again', () => {
    open(viewWith({ cuts: cutsWith(['A1.b', 'A2.b']) }), {
      progress: { ...noProgress, scrapped: ['nest-1/S1'] },
    })
    expect(screen.queryByRole('region', { name: /left of length/ })).toBeNull()
  })

  test.each([
    ['Fit-up', joined],
    ['Finish', plan],
  ])('all cut leads to %s, and Undo is still there', (name, made) => {
    open(viewWith({ plan: made, cuts: cutsWith(['A1.b', 'A2.b', 'A1.m', 'A1', 'A2.m', 'A2']) }), {
      progress: { ...noProgress, last: { 'job-1': 'dev:6' } },
    })
    expect(screen.getByText(/All 6 cuts of this job are done/)).toBeTruthy()
    expect((main('Undo') as HTMLButtonElement).disabled).toBe(false)
    fireEvent.click(main(`All cut go to ${name}`))
    expect(location.hash).toBe(`#/job/job-1/${name.toLowerCase()}`)
  })
})

describe('nothing to cut', () => {
  test('sizes that give no frame are said, with the way to Sizes', () => {
    open(
      viewWith({ plan: null, cuts: [], problems: [{ code: 'x', text: '3 in is too small for 2 in tube.' }] }),
    )
    expect(screen.getByText('3 in is too small for 2 in tube.')).toBeTruthy()
    expect(screen.getByRole('link', { name: 'Go to Sizes' }).getAttribute('href')).toBe('#/job/job-1/sizes')
  })

  test('a plan that a judge refused shows every fault and no button that cuts', () => {
    open(viewWith({ refused: ['Stick S1: pieces overlap by 2.5 mm.', 'A1 is 2 mm too long.'] }))
    const alert = screen.getByRole('alert')
    expect(alert.textContent).toContain('2 faults')
    expect(alert.textContent).toContain('A1 is 2 mm too long.')
    expect(screen.queryByRole('button', { name: /Cut/ })).toBeNull()
  })

  test('while the nest is worked out: best so far against the least possible, rounded up, and a stop', () => {
    const bare = { ...plan }
    delete (bare as { run?: unknown }).run
    const app = open(
      viewWith({
        plan: bare,
        nest: null,
        cuts: [],
        nesting: { state: 'working', cost: 12000, bound: 11790, proved: false },
      }),
    )
    expect(screen.getByRole('status').textContent).toContain('at most 2 % from the least possible')
    fireEvent.click(main('Stop'))
    expect(app.actions.stopSolving).toHaveBeenCalledWith('job-1')
  })

  test('the best so far can be cut from while the search goes on', () => {
    open(viewWith({ nesting: { state: 'working', cost: 6000, bound: 6000, proved: false } }))
    expect(main('Cut A1 blank')).toBeTruthy()
    expect(main('Stop and use the best so far')).toBeTruthy()
  })

  test('no way found: said in the words of the search, with another try', () => {
    const app = open(
      viewWith({
        nest: null,
        cuts: [],
        nesting: { state: 'failed', text: 'A 6400 mm is longer than any length.' },
      }),
    )
    expect(screen.getByText('A 6400 mm is longer than any length.')).toBeTruthy()
    fireEvent.click(main('Work it out'))
    expect(app.actions.show).toHaveBeenCalledWith('job-1')
  })

  test('a job changed after cutting began offers to plan the rest, with its spares by name', () => {
    const app = open(viewWith({ cuts: [], nesting: { state: 'accepted', rest: true }, spares: ['A1', 'A2'] }))
    expect(screen.getByText('2 spare pieces:').parentElement!.textContent).toContain('A1, A2')
    expect(screen.queryByRole('button', { name: /^Cut/ })).toBeNull()
    fireEvent.click(main('Plan what is left'))
    expect(app.actions.planRest).toHaveBeenCalledWith('job-1', [])
  })

  test('changed so that all it asks for is cut: no plan is offered, the way on is Fit-up', () => {
    const nesting = { state: 'accepted', rest: true, allCut: true } as const
    open(viewWith({ plan: joined, cuts: [], nesting, spares: ['A2'] }))
    expect(screen.getByRole('heading', { name: 'All of it is cut' })).toBeTruthy()
    expect(screen.getByText('1 spare piece:')).toBeTruthy()
    expect(screen.queryByRole('button', { name: 'Plan what is left' })).toBeNull()
    expect(screen.getByRole('link', { name: 'Go to Fit-up' })).toBeTruthy()
  })

  test('sizes that stopped working leave the last good plan, marked', () => {
    open(viewWith({ stale: true, problems: [{ code: 'x', text: 'A size of 0 is not possible.' }] }))
    expect(screen.getByRole('alert').textContent).toContain('A size of 0 is not possible.')
    expect(main('Cut A1 blank')).toBeTruthy()
  })
})

describe('a pedal that acts as a keyboard', () => {
  const press = (key: string, at: number, repeat = false) => {
    const event = new KeyboardEvent('keydown', { key, repeat, bubbles: true, cancelable: true })
    Object.defineProperty(event, 'timeStamp', { value: at })
    act(() => void document.body.dispatchEvent(event))
    return event.defaultPrevented
  }

  test('checks off by Page Down; pressed again 1 s later it bounced, 2 s later it is the next piece', async () => {
    const app = open(viewWith())
    expect(press('PageDown', 10_000)).toBe(true)
    await offered('A1 blank is cut')
    await offered('Cut A2 blank')
    press('PageDown', 11_000)
    press('PageDown', 11_200, true)
    expect(app.actions.cut).toHaveBeenCalledTimes(1)
    press('PageDown', 12_000)
    expect(app.actions.cut).toHaveBeenCalledTimes(2)
  })

  test('Enter and Space cut too, Page Up takes back', async () => {
    const app = open(viewWith())
    press('Enter', 10_000)
    await offered('A1 blank is cut')
    await offered('Cut A2 blank')
    press(' ', 20_000)
    press('PageUp', 30_000)
    expect(app.actions.cut).toHaveBeenCalledTimes(2)
    expect(app.actions.undo).toHaveBeenCalledTimes(1)
  })

  test('does nothing in a field', () => {
    const app = open(viewWith())
    const field = document.createElement('input')
    document.body.append(field)
    fireEvent.keyDown(field, { key: 'Enter' })
    expect(app.actions.cut).not.toHaveBeenCalled()
    field.remove()
  })
})

describe('a cut that went wrong', () => {
  test('is told in four taps: which, how, how much is left; then the rest is planned', async () => {
    const app = open(viewWith({ cuts: cutsWith(['A1.b']) }))
    const miscut = vi.fn(async (_id: string, _wrong: Wrong) => true)
    Object.assign(app.actions, { miscut })
    fireEvent.click(main('Miscut'))
    expect(screen.getByRole('heading', { name: 'What went wrong?' })).toBeTruthy()
    // The piece on the saw is meant unless said otherwise; too short says nothing of how much is left.
    expect(screen.getByRole('radio', { name: 'A2, blank, on the saw' })).toHaveProperty('checked', true)
    expect(main('Keep what is left')).toHaveProperty('disabled', true)
    fireEvent.click(screen.getByRole('radio', { name: 'bad end' }))
    fireEvent.click(main('Keep 404 mm of it'))
    await waitFor(() => expect(app.actions.planRest).toHaveBeenCalledWith('job-1'))
    const [job, wrong] = miscut.mock.calls[0]!
    expect(job).toBe('job-1')
    expect(wrong).toMatchObject({ why: 'bad end', left: 404, ends: ['mill', 'cut'] })
    expect('cut' in wrong.of && wrong.of.cut.product.id).toBe('A2.b')
    expect(screen.queryByRole('heading', { name: 'What went wrong?' })).toBeNull()
  })

  test('450 mm cannot be left of a blank of 404: refused beside the field, nothing to keep', async () => {
    open(viewWith({ cuts: cutsWith(['A1.b']) }))
    fireEvent.click(main('Miscut'))
    const field = screen.getByRole('textbox', { name: /^What can still be cut from A2/ })
    fireEvent.change(field, { target: { value: '450' } })
    fireEvent.keyDown(field, { key: 'Enter' })
    expect(
      screen.getByText('450 mm was given; 0 mm to 404 mm is possible: it was to be that long.'),
    ).toBeTruthy()
    expect(main('Keep what is left')).toHaveProperty('disabled', true)
  })

  test('a piece left to the hand is meant first once the saw is done', async () => {
    const [part] = plan.parts
    const { mark, key } = part!
    const hand = (id: string): HandCut => ({
      left: { piece: id, mark, code: 'beyond-the-saw', why: 'too steep', ways: [] },
      product: { id, from: 'S1', kind: 'piece', mark, key, makes: [id] },
      stick: 'S1',
    })
    const cuts = cutsWith(viewWith().cuts.map(({ product }) => product.id))
    const app = open(viewWith({ cuts, byHand: [hand('A8'), hand('A9')] }))
    const miscut = vi.fn(async (_id: string, _wrong: Wrong) => true)
    Object.assign(app.actions, { miscut })
    fireEvent.click(main('Miscut'))
    expect(screen.getByRole('radio', { name: 'A8, by hand' })).toHaveProperty('checked', true)
    fireEvent.click(screen.getByRole('radio', { name: 'A9, by hand' }))
    fireEvent.click(main('Scrap A9'))
    await waitFor(() => expect(app.actions.planRest).toHaveBeenCalledWith('job-1'))
    const [, wrong] = miscut.mock.calls[0]!
    expect('cut' in wrong.of && wrong.of.cut.product.id).toBe('A9')
  })

  test('leaves its place: the work goes on with the next, and what is missing is said', () => {
    const cuts = cutsWith(['A1.b']).map((cut) =>
      cut.product.id.startsWith('A2') ? { ...cut, lost: 'dev:9' } : cut,
    )
    open(viewWith({ cuts, missing: ['A2'] }))
    expect(screen.getByText(/A2 has no steel in this plan/)).toBeTruthy()
    expect(main('Cut A1 first end')).toBeTruthy()
    expect(document.querySelector('.bar-words [role=status]')!.textContent).toContain('1 of 3 in all')
  })

  test('the plan of the rest says first what must be bought, then what changes on each stick', () => {
    const section = plan.run!.setUps[0]!.section
    const offer = {
      nest,
      recut: [],
      apart: [{ open: [{ mark: 'A', count: 2 }], from: ['S3'], why: 'too short' as const }],
      of: '',
      difference: {
        buy: [{ section, length: 6000, count: 1 }],
        saved: 0,
        same: 2,
        changed: [{ stick: 'S4', section, length: 6000, kind: 'stick' as const, before: '', after: 'A × 2' }],
      },
    }
    const app = open(viewWith({ missing: ['A1', 'A2'], offer }))
    // One line over the set-up till it is looked at: the numbers to set stay in sight.
    expect(screen.queryByRole('region', { name: 'The new plan of what is left' })).toBeNull()
    expect(document.querySelector('.lacking')!.textContent).toContain('ready: 1 length to buy')
    expect(document.querySelector('[data-figure="stop"]')).toBeTruthy()
    fireEvent.click(main('See the new plan'))
    const shown = screen.getByRole('region', { name: 'The new plan of what is left' })
    expect(shown.textContent).toContain('To buy: 1 length of 6000 mm')
    expect(shown.textContent).toContain(
      'A × 2 were wanted from the same length as what is cut from S3. What is left of it is too short for them: now from another length.',
    )
    expect(within(shown).getByRole('row', { name: /S4/ }).textContent).toContain('A × 2')
    fireEvent.click(main('Work by the new plan'))
    expect(app.actions.acceptRest).toHaveBeenCalledWith('job-1')
  })

  test('a piece left for later comes after all others, and its set-up can be gone back to', async () => {
    open(viewWith())
    fireEvent.click(main('Leave it'))
    fireEvent.click(main('Cut A2 blank'))
    await screen.findByRole('button', { name: /^Go to set-up 2/ }, { timeout: 3000 })
    const list = screen.getByRole('navigation', { name: 'Set-ups' })
    expect(within(list).getAllByRole('button')[0]!.textContent).toContain('1 cut, 1 to go')
  })
})

describe('the first piece and the real stick', () => {
  test('a blank of 404 that came out at 406: the stop goes 2 toward the blade, and 402 is what is set', async () => {
    const app = open(viewWith({ cuts: cutsWith(['A1.b']) }))
    fireEvent.change(screen.getByRole('textbox', { name: /The length that you got/ }), {
      target: { value: '406' },
    })
    await screen.findByText(/2 mm too long/, {}, { timeout: 3000 })
    fireEvent.click(main('Stop moved, piece kept'))
    await waitFor(() => expect(app.actions.moveStop).toHaveBeenCalledWith('job-1', 'set-1', -2))
    expect(app.actions.measure).toHaveBeenCalledWith('job-1', {
      piece: expect.any(String),
      what: 'length',
      got: 406,
      wanted: 404,
    })
    const { store } = app
    const view = store.getState().views['job-1']!
    act(() => store.setState({ views: { 'job-1': { ...view, stops: { 'set-1': -2 } } } }))
    expect(document.querySelector('[data-figure="stop"]')!.textContent).toBe('402 mm')
    expect(screen.getByText(/from the teeth, corrected/)).toBeTruthy()
  })

  test('too long, the piece may be recut: only the stop is written; no good, the miscut asks for this piece', async () => {
    const app = open(viewWith({ cuts: cutsWith(['A1.b']) }))
    const type = () =>
      fireEvent.change(screen.getByRole('textbox', { name: /The length that you got/ }), {
        target: { value: '406' },
      })
    type()
    await screen.findByText(/2 mm too long/, {}, { timeout: 3000 })
    fireEvent.click(main('Stop moved, piece recut'))
    await waitFor(() => expect(app.actions.moveStop).toHaveBeenCalledTimes(1))
    expect(app.actions.measure).not.toHaveBeenCalled()
    await waitFor(() => expect(screen.queryByText(/2 mm too long/)).toBeNull())
    type()
    await screen.findByText(/2 mm too long/, {}, { timeout: 3000 })
    fireEvent.click(main('Stop moved, piece no good'))
    await screen.findByText('What went wrong?')
    expect(app.actions.moveStop).toHaveBeenCalledTimes(2)
  })

  test('40.6 for a blank of 404 is no measure of this edge: said, and nothing can be moved by it', async () => {
    open(viewWith({ cuts: cutsWith(['A1.b']) }))
    fireEvent.change(screen.getByRole('textbox', { name: /The length that you got/ }), {
      target: { value: '40.6' },
    })
    await screen.findByText(/was measured where 404 mm is printed/, {}, { timeout: 3000 })
    expect(screen.queryByRole('button', { name: /^Stop moved/ })).toBeNull()
  })

  test('a stick of 6000 that is 6020 is said once, with its end', async () => {
    const app = open(viewWith())
    const field = screen.getByRole('textbox', { name: /Real length of length S1/, hidden: true })
    fireEvent.change(field, { target: { value: '6020' } })
    fireEvent.blur(field)
    fireEvent.click(screen.getByRole('button', { name: 'Write it down', hidden: true }))
    await waitFor(() => expect(app.actions.load).toHaveBeenCalledWith('job-1', 'S1', 6020, ['mill', 'mill']))
  })
})
