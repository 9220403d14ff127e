import { fireEvent, screen, within } from '@testing-library/react'
import { describe, expect, test } from 'vitest'
import { Weld } from '../../../src/ui/weld/weld.tsx'
import { shop } from '../saw/bench-run.ts'
import { fakeApp, noProgress, viewWith } from '../saw/fake-app.tsx'
import { plan, steps } from './weld-plan.ts'

const ticked = (copy: number, ids: readonly string[]) => ({
  ...noProgress,
  ticked: Object.fromEntries(ids.map((id) => [`job-1/${copy}/${id}`, `dev:${id}`])),
})
const open = (progress = noProgress, change: Parameters<typeof viewWith>[0] = {}) => {
  const app = fakeApp(viewWith({ plan, ...change }), { progress, shop })
  app.put((view) => <Weld view={view} />)
  return app
}
const all = steps.map(({ id }) => id)
const button = (name: RegExp | string) => screen.getByRole('button', { name })

describe('the Weld station', () => {
  test('the step at hand is large, numbered as on the list, with why; its key ticks it for this copy', () => {
    const app = open(ticked(1, ['fit:top']))
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('joint 2 Tack corner 3, outside')
    fireEvent.click(button('Tack 2: done Tack corner 3, outside'))
    expect(app.actions.tick).toHaveBeenCalledWith('job-1', 1, 'tack:3', 'tacked')
  })

  test('a pass is ticked as welded, a check and a turn as checked', () => {
    const app = open(ticked(1, all.slice(0, 4)))
    fireEvent.click(button('Weld 2: done Weld corner 3, outside'))
    expect(app.actions.tick).toHaveBeenLastCalledWith('job-1', 1, 'pass:3', 'welded')
    fireEvent.click(screen.getByRole('checkbox', { name: /Turn the top over/ }))
    expect(app.actions.tick).toHaveBeenLastCalledWith('job-1', 1, 'turn:top', 'checked')
  })

  test('every step has its state as a word and for a screen reader', () => {
    open(ticked(1, ['fit:top']))
    const boxes = screen.getAllByRole('checkbox')
    expect(boxes).toHaveLength(8)
    expect(boxes[0]!.getAttribute('aria-checked')).toBe('true')
    expect(boxes[0]!.textContent).toContain('fitted')
    expect(boxes[1]!.textContent).toContain('on now')
    expect(boxes[2]!.textContent).toContain('to go')
  })

  test('copies are chosen, each with how far it is; the first that is not done is shown', () => {
    open(ticked(1, all))
    const copies = screen.getByRole('group', { name: 'Copy on the bench' })
    expect(
      within(copies)
        .getAllByRole('button')
        .map((one) => one.textContent),
    ).toEqual(['Copy 1 done', 'Copy 2 0 of 8', 'Copy 3 0 of 8'])
    expect(button('Copy 2 0 of 8').getAttribute('aria-pressed')).toBe('true')
    fireEvent.click(button('Copy 3 0 of 8'))
    expect(screen.getByRole('status').textContent).toBe('0 of 8 steps of copy 3')
  })

  test('twelve copies are a list instead of keys', () => {
    open(noProgress, { plan: { ...plan, quantity: 12 } })
    expect((screen.getByLabelText('Copy on the bench') as HTMLSelectElement).options).toHaveLength(12)
  })

  test('all done is said', () => {
    open(ticked(1, all), { plan: { ...plan, quantity: 1 } })
    expect(screen.getByText('all 8 steps are done.')).toBeTruthy()
  })

  test('a cut list has nothing to weld and says so', () => {
    open(noProgress, { plan: { ...plan, weld: { seams: [], tacks: [], order: [], round: [], steps: [] } } })
    expect(screen.getByRole('heading', { name: 'Nothing to weld' })).toBeTruthy()
  })

  test('a copy that is joined can be told to be cut apart; a copy with checks only cannot', () => {
    const app = open({ ...ticked(1, all), joined: ['job-1/1'] })
    expect(screen.queryByText(/cut apart/)).toBeNull()
    fireEvent.click(button('Copy 1 done'))
    expect(screen.getByText('Was copy 1 cut apart?')).toBeTruthy()
    expect(screen.getByText(/its pieces count as loose steel/).textContent).toContain('Undo takes this back')
    fireEvent.click(screen.getByText('Copy 1 is cut apart'))
    expect(app.actions.cutApart).toHaveBeenCalledWith('job-1', 1)
  })
})
